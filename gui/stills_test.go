package gui

import (
	"fmt"
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
	"app.tonedesk/gui/keeping"
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
func TestSelectNotes(t *testing.T) {
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
	text := d.page().(*stillsPage).notes.Text
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

func TestKept(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	id := d.marker.Still().ID
	if len(p.kept.Shown) != 1 || p.kept.Shown[0].ID != id {
		t.Fatalf("the list shows %+v", p.kept.Shown)
	}
	p.notes.Name.SetText(" Study of a half\t")
	p.notes.Name.FocusLost()
	if len(p.kept.Shown) != 1 || p.kept.Shown[0].Name != "Study of a half" || p.notes.Name.Text != "Study of a half" {
		t.Errorf("renamed, the list shows %+v", p.kept.Shown)
	}
	p.kept.Search.SetText("nothing like it")
	if len(p.kept.Shown) != 0 {
		t.Error("the search finds what isn't there")
	}
	p.kept.Search.SetText("HALF study")
	if len(p.kept.Shown) != 1 {
		t.Error("the search finds nothing")
	}
	if img := p.kept.Thumb(id); img == nil {
		img = p.kept.Thumb(id)
		if img == nil || img.Rect.Dx() != 192 || img.Rect.Dy() != 144 {
			t.Errorf("the small picture is %v", img)
		}
	}
	d.stills.delete(id)
	if len(p.kept.Shown) != 0 || d.setup.Source.Kind == setup.SourceStill {
		t.Error("a deleted still stays in the list or in the mirror")
	}
	d.Undo()
	if len(p.kept.Shown) != 1 {
		t.Error("the still does not come back")
	}
	d.stills.delete(id)
	d.Messages.Acts[host.MessageNote].Do() // undo
	if len(p.kept.Shown) != 1 {
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
	p := openNewStill(t, d, guitest.Halves(grey(200), grey(118)))
	before := d.marker.Still().ID
	d.stills.back()
	now := guitest.Halves(grey(200), grey(60))
	d.see(t, now)
	p.choose(partCompare) // which takes the newest
	d.see(t, now)
	d.see(t, now)
	if d.comparison.With.ID != before || d.comparison.With.Found == nil {
		t.Fatal("nothing was compared")
	}
	// sRGB 200, 118 and 60 have the values 8.00, 4.87 and 2.49 (IEC 61966-2-1, D1535); half of the
	// picture became darker, so that its mean lightness did by about half of that
	rows := p.compare.Table.Rows()
	if len(rows) != 2 || plainSay(rows[1].Value) != "4.9 → 2.5" || plainSay(rows[0].Value) != "8.0" || plainSay(rows[0].Before) != "50 %" {
		t.Errorf("the table says %+v", rows)
	}
	if got := plainSay(p.compare.Lines.Text); !strings.HasPrefix(got, "50 % of the picture changed.") {
		t.Errorf("the change is said as %q", got)
	}
	if said := d.parts.sentence.Text(); !strings.HasSuffix(said.Title, "darker overall") || plainSay(said.Right) != "50 % changed" {
		t.Errorf("the sentence is %+v", said)
	}
	over := func() *image.RGBA { return d.Mirror.Overlay(widgets.OverlayBefore) }
	size := d.Mirror.Pixels()
	d.comparison.MoveLine(0.75)
	left, right := over().RGBAAt(size.X*6/10, size.Y/4), over().RGBAAt(size.X*9/10, size.Y/4)
	if left.R != 118 || left.A != 255 || right.A != 0 {
		t.Errorf("left of the line lies %v, right of it %v", left, right)
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
	if was, is := darkSide(m.Other()), darkSide(m.Picture()); was != 118 || is != 60 {
		t.Errorf("the darker sides are %d before and %d now, want 118 and 60", was, is)
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

// Compare, tapped, compares with the newest still that isn't watched; leaving the part or the page
// shows the picture alone.
func TestCompareBeginsByItself(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.openPage(pageIndex(settings.PageStills))
	p := d.page().(*stillsPage)
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	p.parts.Choose(partCompare)
	if said := d.parts.sentence.Text(); d.comparison.On() || said.Title != wording.SayNothingBefore().Title {
		t.Errorf("without a still it says %q", said.Title)
	}
	for range 2 {
		d.stills.keep(false)
		d.see(t, img)
	}
	if !d.comparison.On() {
		t.Error("a still that is kept then is not compared with")
	}
	p.parts.Choose(partKept)
	if d.comparison.On() || d.Mirror.Overlay(widgets.OverlayBefore) != nil {
		t.Error("beside the list two pictures are compared")
	}
	p.parts.Choose(partCompare)
	if d.comparison.With.ID != p.kept.All()[0].ID {
		t.Error("not the newest is compared with")
	}
	d.openPage(pageIndex(settings.PageWatch))
	if d.comparison.On() {
		t.Error("on another page two pictures are compared")
	}
	d.stills.open(p.kept.All()[0].ID)
	d.see(t, img)
	d.seeStill(t)
	d.TypedRune('d')
	if d.comparison.With.ID != p.kept.All()[1].ID {
		t.Error("a still is compared with itself, or with none")
	}
	d.TypedRune('d')
	if d.comparison.On() {
		t.Error("the key does not end comparing")
	}
}

// A tap selects a still, one more opens it with the tool that selects; in the trash a tap restores,
// and a message takes that back.
func TestTapsOnStills(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	id := d.marker.Still().ID
	d.marker.setTool(2)
	d.stills.back()
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	p.parts.Choose(partKept)
	if p.kept.At() != id {
		t.Error("where none is selected the newest is not meant")
	}
	p.kept.Tapped(0)
	if d.setup.Source == asSource(id) {
		t.Fatal("one tap opens it")
	}
	p.kept.Tapped(0)
	d.seeStill(t)
	if d.marker.Tool() != 0 || p.shown != partNotes || !d.Mirror.HasPen() {
		t.Errorf("opened, tool %d is in use, part %d is shown", d.marker.Tool(), p.shown)
	}
	d.Freeze() // is resume while a still is watched
	if d.setup.Source.Kind == setup.SourceStill || d.frozen {
		t.Error("resume does not go back to what was watched")
	}
	d.stills.delete(id)
	p.parts.Choose(partKept)
	p.kept.Which.Choose(keeping.ListTrash.String())
	if len(p.kept.Shown) != 1 || p.kept.At() != "" {
		t.Fatalf("the trash shows %d", len(p.kept.Shown))
	}
	p.kept.Tapped(0)
	if act := d.Messages.Acts[host.MessageNote]; len(p.kept.Shown) != 0 || len(p.kept.All()) != 1 || d.Messages.Said[host.MessageNote] != "Restored" || act.Name != "Undo" {
		t.Fatalf("restored: %d in the trash, %d kept, it says %q", len(p.kept.Shown), len(p.kept.All()), d.Messages.Said[host.MessageNote])
	}
	d.Messages.Acts[host.MessageNote].Do()
	if len(p.kept.Shown) != 1 || len(p.kept.All()) != 0 {
		t.Error("undo does not put it back into the trash")
	}
}

// The message that a picture was kept has it named, while the picture goes on being watched.
func TestKeptIsNamed(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.openPage(pageIndex(settings.PageStills))
	p := d.page().(*stillsPage)
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	d.stills.keep(false)
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	d.Messages.Acts[host.MessageNote].Do()
	entry, ok := d.Window.Canvas().Focused().(*widgets.Entry)
	if !ok {
		t.Fatalf("%T has the keys", d.Window.Canvas().Focused())
	}
	entry.SetText(" flats ")
	entry.OnSubmitted(entry.Text)
	if d.Asks() != "" || p.kept.Shown[0].Name != "flats" || d.setup.Source.Kind == setup.SourceStill {
		t.Errorf("it asks %q, the still is called %q", d.Asks(), p.kept.Shown[0].Name)
	}
}

// The lists show what their names say.
func TestListsOfStills(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	old := stills.Meta{Time: time.Now().AddDate(0, 0, -2), Source: stills.Source{Kind: stills.FromPicture, Path: "/elsewhere.png"}}
	if _, err := d.Store.Keep(d.marker.Still().Picture, old, nil); err != nil {
		t.Fatal(err)
	}
	p.parts.Choose(partKept)
	for list, want := range map[string]int{keeping.ListAll.String(): 2, keeping.ListToday.String(): 1, keeping.ListThis.String(): 1, keeping.ListTrash.String(): 0} {
		if p.kept.Which.Choose(list); len(p.kept.Shown) != want {
			t.Errorf("%s shows %d, want %d", list, len(p.kept.Shown), want)
		}
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
	p.choose(partCompare) // which takes the newest
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

func TestExportFromTheWindow(t *testing.T) {
	lawtest.SkipRaced(t)
	d := newTestDesk(t, settings.Defaults())
	openNewStill(t, d, form())
	d.marker.setTool(2)
	drag(d.Mirror, image.Pt(100, 100), image.Pt(200, 180))
	dir := t.TempDir()
	for i, way := range exportWays() {
		path := filepath.Join(dir, fmt.Sprint("still ", i, way.ending))
		d.stills.exporter.write(way, d.marker.Still(), path)
		if info, err := os.Stat(path); err != nil || info.Size() < 100 || info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v, %v; the window says %q", way.name, info, err, d.Messages.Said[host.MessageError])
		}
	}
	d.stills.exporter.write(exportWays()[0], d.marker.Still(), filepath.Join(dir, "no", "such", "folder.pdf"))
	if got := d.Messages.Said[host.MessageError]; !strings.Contains(got, "Can't write") {
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
	if n := len(p.kept.All()); n != 2 {
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
	if n := len(p.kept.All()); n != 2 {
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
	if n := len(p.kept.All()); n != 2 {
		t.Error("Esc removes something")
	}
	d.stills.askClear(over)
	buttonNamed(t, d, "Remove")
	d.stills.clearStills(over)
	if n := len(p.kept.All()); n != 1 || p.kept.All()[0].ID == over.Removals[0].ID {
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
	if got := plainSay(wording.SayOver(over)); got != "The stills take 3 MB, more than the 1 MB that they may. There is nothing older to remove. Raise the limit in the settings." {
		t.Errorf("it says %q", got)
	}
}

// A still that is gone under an open list doesn't take away what was watched.
func TestStillGone(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, form())
	d.stills.back()
	d.see(t, form())
	before := d.setup.Source
	id := p.kept.Shown[0].ID
	if err := d.Store.Delete(id); err != nil { // another window does
		t.Fatal(err)
	}
	d.stills.open(id)
	_, err := d.stills.stream(id)
	d.setStatus(capture.Status{Err: err})
	if d.setup.Source != before || len(p.kept.Shown) != 0 {
		t.Errorf("watched is %+v, the list shows %d stills", d.setup.Source, len(p.kept.Shown))
	}
	d.Undo()
	if d.setup.Source.Kind == setup.SourceStill {
		t.Error("undo goes to a still that is gone")
	}
}

// The tool that selects moves an enlarged picture where it takes hold of no note.
func TestSelectMovesThePicture(t *testing.T) {
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
		d.page().(*stillsPage).showPart(partNotes)
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
			d.Messages.Note("Something is said over the picture")
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

// The list counts the notes of now when it is opened, and when they are saved while it is
// seen.
func TestKeptCountsNotes(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	settle := queueSoon(d)
	d.marker.saver.Saved = func() { d.Notify(host.NotesSaved) }
	draw := func(at int) {
		p.parts.Choose(partNotes)
		d.marker.setTool(2)
		drag(d.Mirror, image.Pt(at, 60), image.Pt(at+40, 150))
	}
	count := func() int { return p.kept.Shown[0].Notes.Count }
	draw(40)
	settle()
	p.parts.Choose(partKept)
	if n := count(); n != 1 {
		t.Errorf("opened, the list counts %d notes, want 1", n)
	}
	draw(100)
	p.parts.Choose(partKept)
	settle()
	if n := count(); n != 2 {
		t.Errorf("saved, the list counts %d notes, want 2", n)
	}
}

// Without a still no tool is in use.
func TestDeletedStillLeavesNoTool(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	d.marker.setTool(2)
	if !p.notes.Tools.Tools[2].On() {
		t.Fatal("the arrow is not underlined")
	}
	d.stills.delete(d.marker.Still().ID)
	for i, tool := range p.notes.Tools.Tools {
		if tool.On() {
			t.Errorf("tool %d is underlined without a still", i)
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
	entry := p.notes.Text
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
	d.Window.Canvas().Focus(p.notes.Name)
	p.notes.Name.TypedShortcut(&fyne.ShortcutPaste{Clipboard: d.App.Clipboard()})
	if got := d.Messages.Said[host.MessageNote]; got != "A name has at most 200 characters." || p.notes.Name.Text != strings.Repeat("ö", 200) {
		t.Errorf("said %q, %d letters are taken", got, len([]rune(p.notes.Name.Text)))
	}
	p.notes.Name.FocusLost()
	if got := p.kept.Shown[0].Name; got != strings.Repeat("ö", 200) {
		t.Errorf("it is called %q", got)
	}
}

// While a toast offers to undo what became of a still, the key does just that, and once more goes on to
// what was done before.
func TestUndoFollowsTheToast(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	spotsOn(t, d, 2)
	d.stills.keep(false)
	d.see(t, form())
	listed := func() []stills.Entry {
		list, _, err := d.Store.List()
		if err != nil {
			t.Fatal(err)
		}
		return list
	}
	kept := func() int { return len(listed()) }
	d.stills.delete(listed()[0].ID)
	if kept() != 0 {
		t.Fatal("it is not deleted")
	}
	d.Undo()
	if kept() != 1 || len(d.setup.Places) != 2 {
		t.Fatalf("undone: %d kept, %d spots", kept(), len(d.setup.Places))
	}
	d.Undo()
	if kept() != 1 || len(d.setup.Places) != 1 {
		t.Errorf("undone twice: %d kept, %d spots", kept(), len(d.setup.Places))
	}
}

// What a toast says goes with the step that it is about.
func TestUndoTakesTheToast(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	spotsOn(t, d, 2)
	d.memory.ClearSpots()
	if len(d.setup.Places) != 0 || d.Messages.Said[host.MessageNote] == "" {
		t.Fatalf("%d spots, it says %q", len(d.setup.Places), d.Messages.Said[host.MessageNote])
	}
	d.Undo()
	if len(d.setup.Places) != 2 || d.Messages.Said[host.MessageNote] != "" {
		t.Errorf("%d spots, it says %q", len(d.setup.Places), d.Messages.Said[host.MessageNote])
	}
}

// Where nothing was seen there is nothing to freeze.
func TestFreezeWithoutAPicture(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	nothingChosen(t, d, nil)
	d.Freeze()
	if d.frozen {
		t.Errorf("it is frozen: %q", d.parts.message.Text())
	}
}

// Letters typed after a note was drawn are its words, not keys; once it is left they are keys again.
func TestWordsAfterDrawing(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := onStills(t, d, partNotes)
	d.marker.setTool(2)
	drag(d.Mirror, image.Pt(60, 200), image.Pt(340, 280))
	frozen := d.frozen
	for _, r := range "frost 2" {
		if to := d.Window.Canvas().Focused(); to != nil && to != fyne.Focusable(d.Mirror) {
			to.TypedRune(r)
		} else {
			d.TypedRune(r)
		}
	}
	if note, _ := d.marker.Selected(); note.Text != "frost 2" || d.frozen != frozen || p.notes.Text.Text != "frost 2" {
		t.Errorf("the note says %q", note.Text)
	}
	d.FocusMirror()
	d.marker.Unselect()
	if d.TypedRune('x'); !d.settings.Flipped {
		t.Error("X is no key any more")
	}
}
