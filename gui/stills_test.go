package gui

import (
	"image"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/capture"
	"app.tonedesk/gui/comparing"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/marking"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// seeStill shows a frame, then the still that was asked for meanwhile, as the watcher would.
func (d *Desk) seeStill(t *testing.T) {
	t.Helper()
	if d.setup.Source.Kind != setup.SourceStill {
		t.Fatal("no still is watched")
	}
	if _, err := d.stills.stream(d.setup.Source.Path); err != nil {
		t.Fatal(err)
	}
	p := d.marker.Still().Picture
	img := image.NewNRGBA(image.Rect(0, 0, p.Width, p.Height))
	copy(img.Pix, p.Pix)
	d.see(t, img)
}

// openNewStill keeps a picture, opens it as a still, and shows the page for it.
func openNewStill(t *testing.T, d *Desk, img *image.NRGBA) *stillsPage {
	t.Helper()
	d.openPage(pageIndex(settings.PageStills))
	d.see(t, img)
	d.stills.keep(true)
	d.see(t, img)
	d.seeStill(t)
	p, ok := d.page().(*stillsPage)
	if !ok {
		t.Fatal("the page of stills is not open")
	}
	return p
}

// A note is taken hold of, carried, nudged, deleted; a click on nothing lets go of it.
func TestHandOnNotes(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	m := d.Mirror
	d.marker.setTool(4) // a box
	drag(m, image.Pt(100, 100), image.Pt(200, 180))
	d.marker.setTool(0)
	box := func() notes.Box { return d.marker.Notes()[0].Shape.(notes.Box) }
	was := box()
	press(m, image.Pt(150, 140), 0) // inside of the box lies the picture, not the note
	if _, ok := d.marker.Selected(); ok {
		t.Error("a click inside of a box selects it")
	}
	drag(m, image.Pt(150, 100), image.Pt(180, 130)) // by its upper edge
	if way := box().From.Minus(was.From); math.Abs(way.X-30) > 1.5 || math.Abs(way.Y-30) > 1.5 {
		t.Errorf("carried by (30,30) the box went %v", way)
	}
	at := box().From
	m.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if got := box().From.X - at.X; got != 1 {
		t.Errorf("an arrow key moves it by %g pixels", got)
	}
	d.marker.undo()
	d.marker.undo()
	if box() != was {
		t.Errorf("undone, it lies at %+v, was at %+v", box(), was)
	}
	press(m, image.Pt(150, 100), 0)
	d.TypedKey(fyne.KeyDelete)
	if len(d.marker.Notes()) != 0 {
		t.Error("Delete does not delete the note")
	}
	d.marker.setTool(5) // a label
	press(m, image.Pt(50, 50), 0)
	text := d.page().(*stillsPage).text.Entry
	if d.Window.Canvas().Focused() != fyne.Focusable(text) {
		t.Error("a label does not ask for its words")
	}
	text.SetText("warmer here")
	if n, _ := d.marker.Selected(); n.Text != "warmer here" {
		t.Errorf("the label says %q", n.Text)
	}
}

// Notes stay where they are in the picture when it is enlarged, and are drawn in each view.
func TestNotesFollowTheZoom(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Light))
	m := d.Mirror
	d.marker.setTool(4)
	drag(m, image.Pt(100, 100), image.Pt(200, 180))
	drawn := func() int {
		n := 0
		for i := 3; i < len(m.Overlay(widgets.OverlayNotes).Pix); i += 4 {
			if m.Overlay(widgets.OverlayNotes).Pix[i] != 0 {
				n++
			}
		}
		return n
	}
	whole := drawn()
	if whole == 0 {
		t.Fatal("nothing is drawn")
	}
	for range 6 {
		m.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: m.Fit().Pane(image.Pt(300, 250))}, Scrolled: fyne.NewDelta(0, 1)})
		d.see(t, guitest.Halves(guitest.Light, guitest.Light))
	}
	if part := m.Fit().Bounds; image.Rect(100, 100, 200, 180).Overlaps(part) {
		t.Fatalf("the part %v shows the box", part)
	}
	if n := drawn(); n != 0 {
		t.Errorf("%d pixels of a note are drawn that isn't in sight", n)
	}
	m.Zoom(0)
	for _, view := range []string{"grey", "colour", "bands"} {
		d.setView(view)
		d.see(t, guitest.Halves(guitest.Light, guitest.Light))
		if n := drawn(); n != whole {
			t.Errorf("in the view %s %d pixels of notes are drawn, before %d", view, n, whole)
		}
	}
}

func TestShelf(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	id := d.marker.Still().ID
	if len(p.shelf.shown) != 1 || p.shelf.shown[0].ID != id {
		t.Fatalf("the shelf shows %+v", p.shelf.shown)
	}
	p.head.name.SetText(" Study of a half\t")
	p.head.name.FocusLost()
	if len(p.shelf.shown) != 1 || p.shelf.shown[0].Name != "Study of a half" || p.head.name.Text != "Study of a half" {
		t.Errorf("renamed, the shelf shows %+v", p.shelf.shown)
	}
	p.shelf.search.SetText("nothing like it")
	if len(p.shelf.shown) != 0 {
		t.Error("the search finds what isn't there")
	}
	p.shelf.search.SetText("HALF study")
	if len(p.shelf.shown) != 1 {
		t.Error("the search finds nothing")
	}
	if img := p.shelf.thumbs.get(id, false); img == nil {
		img = p.shelf.thumbs.get(id, false)
		if img == nil || img.Rect.Dx() != 192 || img.Rect.Dy() != 144 {
			t.Errorf("the small picture is %v", img)
		}
	}
	d.stills.delete(id)
	if len(p.shelf.shown) != 0 || d.setup.Source.Kind == setup.SourceStill {
		t.Error("a deleted still stays on the shelf or in the mirror")
	}
	d.Undo()
	if len(p.shelf.shown) != 1 {
		t.Error("the still does not come back")
	}
	d.stills.delete(id)
	d.Messages.Acts[host.MessageNote].Do() // bring it back
	if len(p.shelf.shown) != 1 {
		t.Error("the still does not come back by the message's button")
	}
}

// A still's time is that of keeping it, whatever the age of its frame, and stills of one frame
// kept within a second stand in the order in which they were kept.
func TestStillsAreOfTheMomentOfKeeping(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	began := time.Now()
	var copied *live.Copy
	d.copyPicture(func(c *live.Copy) { copied = c })
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	copied.At = began.Add(-time.Hour)
	var order []string
	for range 6 {
		d.stills.keepCopy(copied, false)
		list, _, err := d.Store.List()
		if err != nil {
			t.Fatal(err)
		}
		if at := list[0].Time; at.Before(began.Truncate(0)) || at.After(time.Now()) {
			t.Fatalf("kept now, the still is of %v", at)
		}
		order = append([]string{list[0].ID}, order...)
		for i, e := range list {
			if e.ID != order[i] {
				t.Fatalf("still %d is %s, want the newest first: %v", i, e.ID, order)
			}
		}
	}
}

// A still is compared with a darker picture in words, and laid over it in each way.
func TestCompareWithAStill(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	grey := func(v uint8) color.NRGBA { return color.NRGBA{v, v, v, 255} }
	p := openNewStill(t, d, guitest.Halves(grey(200), grey(120)))
	before := d.marker.Still().ID
	d.stills.back()
	now := guitest.Halves(grey(200), grey(60))
	d.see(t, now)
	d.comparison.Ask()
	p.shelf.chosen(0)
	d.see(t, now)
	d.see(t, now)
	if d.comparison.With.ID != before || d.comparison.With.Found == nil {
		t.Fatal("nothing was compared")
	}
	// sRGB 120 and 60 have the values 4.92 and 2.49 (IEC 61966-2-1, D1535)
	if got := p.compare.Words.Text; !strings.Contains(got, "Shadows 2.4"+wording.Nbsp+"tones darker") {
		t.Errorf("the change is said as %q", got)
	}
	over := func() *image.RGBA { return d.Mirror.Overlay(widgets.OverlayBefore) }
	size := d.Mirror.Pixels()
	d.looked(image.Pt(300, 100), true) // the wipe follows the pointer
	left, right := over().RGBAAt(size.X*6/10, 10), over().RGBAAt(size.X*9/10, 10)
	if left.R != 120 || left.A != 255 || right.A != 0 {
		t.Errorf("left of the wipe shows %v, right of it %v", left, right)
	}
	d.comparison.Set(comparing.Map)
	// nothing changed on the left: L* 50 is the grey 119 (CIE15); much darker is black
	if same, darker := over().RGBAAt(size.X/4, 10), over().RGBAAt(size.X*3/4, 10); same.R != 119 || darker.R > 60 {
		t.Errorf("in the map no change is %v, darker %v", same, darker)
	}
	d.comparison.Set(comparing.Sides)
	d.see(t, now)
	m := d.Mirror
	if m.Other().Rect.Size() != m.Pixels() {
		t.Fatalf("beside the picture of %v stands one of %v", m.Pixels(), m.Other().Rect.Size())
	}
	darkSide := func(img *image.RGBA) uint8 { return img.RGBAAt(img.Rect.Dx()*3/4, img.Rect.Dy()/2).R }
	if was, is := darkSide(m.Other()), darkSide(m.Picture()); was != 120 || is != 60 {
		t.Errorf("the darker sides are %d before and %d now, want 120 and 60", was, is)
	}
	if a := m.Arrangement(); a.OtherPos.X+a.OtherSize.Width > a.Picture.Pos.X && a.OtherPos.Y+a.OtherSize.Height > a.Picture.Pos.Y {
		t.Errorf("the two lie over each other: %+v", a)
	}
	d.comparison.End()
	d.see(t, now)
	if over() != nil || m.Halves() || m.Pixels() != size {
		t.Error("the picture from before stays")
	}
}

// Whatever keys are held down, pictures in turns switch no more than three times a second
// (WCAG 2.2, success criterion 2.3.1, allows three flashes, of two switches each).
func TestTurnsNeverFlash(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.Later = func(time.Duration, func()) func() { return func() {} }
	p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	d.stills.back()
	now := guitest.Halves(guitest.Shadow, guitest.Light)
	d.see(t, now)
	d.comparison.Ask()
	p.shelf.chosen(0)
	d.see(t, now)
	d.see(t, now)
	d.comparison.Set(comparing.Turns)
	middle := d.Mirror.Pixels().Div(2)
	before := func() bool { return d.Mirror.Overlay(widgets.OverlayBefore).RGBAAt(middle.X, middle.Y).A != 0 }
	switches, shown := 0, before()
	for began := time.Now(); time.Since(began) < 900*time.Millisecond; {
		d.TypedRune('n')
		if next := before(); next != shown {
			switches, shown = switches+1, next
		}
	}
	if switches > 3 || switches == 0 {
		t.Errorf("%d switches in 0.9 seconds with the key held, want 1 to 3", switches)
	}
}

func TestHandOnFromTheWindow(t *testing.T) {
	lawtest.SkipRaced(t)
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, form())
	d.marker.setTool(2)
	drag(d.Mirror, image.Pt(100, 100), image.Pt(200, 180))
	dir := t.TempDir()
	for _, way := range exportWays() {
		for _, ending := range way.endings {
			path := filepath.Join(dir, "still"+way.suffix+ending)
			p.head.exporter.write(way, path)
			if info, err := os.Stat(path); err != nil || info.Size() < 100 || info.Mode().Perm() != 0o600 {
				t.Errorf("%s as %s: %v, %v; the window says %q", way.name, ending, info, err, d.Messages.Said[host.MessageNote])
			}
		}
	}
	p.head.exporter.write(exportWays()[0], filepath.Join(dir, "no", "such", "folder.pdf"))
	if got := d.Messages.Said[host.MessageNote]; !strings.Contains(got, "Can't write") {
		t.Errorf("a folder that isn't there is answered by %q", got)
	}
}

// Nothing is removed before the painter agrees; what is removed then is what was listed.
func TestLimitAsksFirst(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, form())
	d.stills.back()
	d.see(t, form())
	d.stills.keep(false)
	d.see(t, form())
	if n := len(p.shelf.all); n != 2 {
		t.Fatalf("%d stills are kept", n)
	}
	over, err := d.Store.Over(1)
	if err != nil || len(over.Removals) != 1 {
		t.Fatalf("over the limit: %+v, %v", over, err)
	}
	if got := plainSay(wording.SayOver(over)); !strings.Contains(got, "is not enough: "+plainSay(wording.BytesSay(over.After))+" would stay. Raise the limit") {
		t.Errorf("it says %q", got)
	}
	if over, err = d.Store.Over(over.Used - 1); err != nil || len(over.Removals) != 1 {
		t.Fatalf("over the limit: %+v, %v", over, err)
	}
	if n := len(p.shelf.all); n != 2 {
		t.Error("asking what is over the limit removes something")
	}
	if got := wording.SayOver(over); !strings.Contains(got, "1"+wording.Nbsp+"of the oldest would be removed for good") {
		t.Errorf("it says %q", got)
	}
	d.stills.askClear(over)
	if b := buttonNamed(t, d, "Keep all"); d.Window.Canvas().Focused() != b.(fyne.Focusable) {
		t.Error("keeping all is not at hand")
	}
	d.CloseDialog()
	if n := len(p.shelf.all); n != 2 {
		t.Error("Esc removes something")
	}
	d.stills.askClear(over)
	buttonNamed(t, d, "Remove")
	d.stills.clearStills(over)
	if n := len(p.shelf.all); n != 1 || p.shelf.all[0].ID == over.Removals[0].ID {
		t.Errorf("%d stills are left, among them perhaps the one to go", n)
	}
}

// buttonNamed returns the button of the dialog on top.
func buttonNamed(t *testing.T, d *Desk, name string) fyne.Tappable {
	t.Helper()
	for _, o := range test.LaidOutObjects(d.Window.Canvas().Overlays().Top()) {
		if b, ok := o.(*widget.Button); ok && b.Text == name {
			return b
		}
		if b, ok := o.(*widgets.Button); ok && b.Text == name {
			return b
		}
	}
	t.Fatalf("there is no button %q", name)
	return nil
}

// Where even the newest still alone is too large, there is nothing to remove.
func TestLimitUnderTheNewest(t *testing.T) {
	over := stills.Clearing{Used: 3 << 20, Limit: 1 << 20, After: 3 << 20}
	if got := plainSay(wording.SayOver(over)); got != "The stills take 3.0 MiB, more than the 1.0 MiB that they may. There is nothing older to remove. Raise the limit in the settings." {
		t.Errorf("it says %q", got)
	}
}

// A still that is gone under an open shelf doesn't take away what was watched.
func TestStillGone(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, form())
	d.stills.back()
	d.see(t, form())
	before := d.setup.Source
	id := p.shelf.shown[0].ID
	if err := d.Store.Delete(id); err != nil { // another window does
		t.Fatal(err)
	}
	d.stills.open(id)
	_, err := d.stills.stream(id)
	d.setStatus(capture.Status{Err: err})
	if d.setup.Source != before || len(p.shelf.shown) != 0 {
		t.Errorf("watched is %+v, the shelf shows %d stills", d.setup.Source, len(p.shelf.shown))
	}
	d.Undo()
	if d.setup.Source.Kind == setup.SourceStill {
		t.Error("undo goes to a still that is gone")
	}
}

// The hand moves an enlarged picture where it takes hold of no note.
func TestHandMovesThePicture(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := form()
	openNewStill(t, d, img)
	m := d.Mirror
	m.Zoom(4)
	d.see(t, img)
	part := m.Fit().Bounds
	drag(m, part.Min.Add(image.Pt(60, 50)), part.Min.Add(image.Pt(30, 30)))
	d.see(t, img)
	if got := m.Fit().Bounds.Min.Sub(part.Min); got != image.Pt(30, 20) {
		t.Errorf("dragged by (-30,-20) the picture moved by %v", got)
	}
}

// Back from a still, the spots from before are there again.
func TestSpotsComeBackAfterAStill(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.openPage(pageIndex(settings.PageStills))
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	press(d.Mirror, image.Pt(100, 150), 0)
	press(d.Mirror, image.Pt(300, 150), 0)
	d.stills.keep(true)
	d.see(t, img)
	d.seeStill(t)
	if len(d.setup.Places) != 0 {
		t.Error("the spots lie on the still")
	}
	d.stills.back()
	d.see(t, img)
	if len(d.setup.Places) != 2 {
		t.Errorf("%d spots are back", len(d.setup.Places))
	}
}

// While something is drawn the picture stays where it is, whatever the page has to say, and
// a straight drag becomes a straight area; also in the narrowest window.
func TestPictureStaysUnderPen(t *testing.T) {
	for _, width := range []float32{settings.MinWidth, 380} {
		s := settings.Defaults()
		s.Page, s.Width, s.Height = settings.PageStills, width, 700
		d := newTestDesk(t, s)
		d.page().(*stillsPage).showPart(partMarks)
		openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
		m := d.Mirror
		for i, tool := range marking.Tools() {
			if tool.Name != "Light" && tool.Name != "Shadow" {
				continue
			}
			d.marker.setTool(i)
			d.Messages.Clear(host.MessageNote)
			d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
			before, y := m.Fit(), float64(60+30*i)
			d.marker.Down(60, y, false)
			for x := 70; x < 300; x += 10 {
				d.marker.Move(float64(x), y, false)
				if m.Fit().Pos != before.Pos || m.Fit().Size != before.Size {
					t.Fatalf("at %g wide, %s moved the picture from %v to %v", width, tool.Name, before, m.Fit())
				}
			}
			d.Messages.Note("Something is said at the top, in the picture's place.")
			if m.Fit().Size != before.Size {
				t.Errorf("at %g wide, a sentence moved the picture under the pen", width)
			}
			d.marker.Up()
			d.Messages.Clear(host.MessageNote)
			if m.Fit().Size != before.Size {
				t.Errorf("at %g wide, after %s the picture is %v, was %v", width, tool.Name, m.Fit(), before)
			}
		}
	}
}

// The shelf counts the notes of now when it is opened, and when they are saved while it is
// seen.
func TestShelfCountsNotes(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	settle := queueSoon(d)
	d.marker.saver.Saved = func() { d.Notify(host.NotesSaved) }
	draw := func(at int) {
		d.marker.setTool(2)
		drag(d.Mirror, image.Pt(at, 60), image.Pt(at+40, 150))
		settle()
	}
	count := func() int { return p.shelf.shown[0].Notes.Count }
	draw(40)
	p.parts.Choose(partShelf)
	if n := count(); n != 1 {
		t.Errorf("opened, the shelf counts %d notes, want 1", n)
	}
	draw(100)
	if n := count(); n != 2 {
		t.Errorf("saved, the shelf counts %d notes, want 2", n)
	}
}

// Without a still no tool is in use.
func TestDeletedStillLeavesNoTool(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	d.marker.setTool(2)
	if p.tools.rows[0].Chosen() != 2 {
		t.Fatalf("tool %d is underlined, want 2", p.tools.rows[0].Chosen())
	}
	d.stills.delete(d.marker.Still().ID)
	if a, b := p.tools.rows[0].Chosen(), p.tools.rows[1].Chosen(); a >= 0 || b >= 0 {
		t.Errorf("tools %d and %d are underlined without a still", a, b)
	}
}

// That a picture was kept is said until something else is done; another answer stays.
func TestKeptIsSaidUntilMore(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	for name, do := range map[string]func(){
		"another page": func() { d.openPage(pageIndex(settings.PageStills)) },
		"another part": func() {
			d.openPage(pageIndex(settings.PageStills))
			d.Messages.Note(keptWords)
			d.parts.pages[pageIndex(settings.PageStills)].(*stillsPage).choose(partMarks)
		},
		"another source": func() { d.watch(setup.Source{Kind: setup.SourcePicture, Path: "x.png"}) },
	} {
		d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
		d.stills.keep(false)
		d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
		if d.Messages.Said[host.MessageNote] != "Kept as a still." {
			t.Fatalf("kept, it says %q", d.Messages.Said[host.MessageNote])
		}
		do()
		if said := d.Messages.Said[host.MessageNote]; said != "" {
			t.Errorf("after %s it still says %q", name, said)
		}
		d.Messages.Note("Something else.")
		do()
		if said := d.Messages.Said[host.MessageNote]; said == "" && name == "another page" {
			t.Errorf("%s takes another answer away", name)
		}
	}
}

// The notes of a still take so many letters together, and say so; what is written stays.
func TestFullOfWords(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	long := strings.Repeat("ö", notes.MostText)
	for i := range notes.MostLetters/notes.MostText + 2 {
		d.marker.setTool(4) // a box
		drag(d.Mirror, image.Pt(20+10*i, 20), image.Pt(26+10*i, 60))
		d.marker.Write(long[:len("ö")*d.marker.Room()])
	}
	entry := p.text.Entry
	d.Window.Canvas().Focus(entry)
	entry.TypedRune('a')
	if got := d.Messages.Said[host.MessageNote]; !strings.HasPrefix(got, "The notes of a still have at most 50000 characters together.") || entry.Text != "" {
		t.Errorf("said %q, the note has %d letters", got, len([]rune(entry.Text)))
	}
	d.marker.Select(d.marker.Notes()[0].ID)
	entry.TypedRune('a')
	if got := d.Messages.Said[host.MessageNote]; got != "A note has at most 4000 characters." || entry.Text != long {
		t.Errorf("said %q, the note has %d letters", got, len([]rune(entry.Text)))
	}
}

// plainSay returns a text with ordinary spaces.
func plainSay(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }

// A name takes 200 letters and says so; a longer one from elsewhere is shown cut, and stays.
func TestLongStillName(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	d.App.Clipboard().SetContent(strings.Repeat("ö", 10_000))
	d.Window.Canvas().Focus(p.head.name)
	p.head.name.TypedShortcut(&fyne.ShortcutPaste{Clipboard: d.App.Clipboard()})
	if got := d.Messages.Said[host.MessageNote]; got != "A name has at most 200 characters." || p.head.name.Text != strings.Repeat("ö", 200) {
		t.Errorf("said %q, %d letters are taken", got, len([]rune(p.head.name.Text)))
	}
	p.head.name.FocusLost()
	if got := p.shelf.shown[0].Name; got != strings.Repeat("ö", 200) {
		t.Errorf("it is called %q", got)
	}
}
