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

	"app.tonedesk/capture"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/lawtest"
)

// seeStill shows a frame, then the still that was asked for meanwhile, as the watcher would.
func (d *Desk) seeStill(t *testing.T) {
	t.Helper()
	if d.setup.Source.Kind != sourceStill {
		t.Fatal("no still is watched")
	}
	if _, err := d.stillStream(d.setup.Source.Path); err != nil {
		t.Fatal(err)
	}
	p := d.still.Picture
	img := image.NewNRGBA(image.Rect(0, 0, p.Width, p.Height))
	copy(img.Pix, p.Pix)
	d.see(t, img)
}

// openNewStill keeps a picture, opens it as a still, and shows the page for it.
func openNewStill(t *testing.T, d *Desk, img *image.NRGBA) *stillsPage {
	t.Helper()
	d.openPage(pageIndex(stillsName))
	d.see(t, img)
	d.KeepStill(true)
	d.see(t, img)
	d.seeStill(t)
	p, ok := d.page().(*stillsPage)
	if !ok {
		t.Fatal("the page of stills is not open")
	}
	return p
}

// Every kind of note is drawn by pointer, undone, done again, and there after opening anew.
func TestNotesOnAStill(t *testing.T) {
	d := newTestDesk(t, Defaults())
	openNewStill(t, d, halves(testLight, testShadow))
	m := d.parts.mirror
	var kinds []string
	for i, tool := range noteTools()[1:] {
		d.setTool(i + 1)
		at := image.Pt(40+35*i, 60)
		if tool.to == nil {
			m.press(at, 0)
		} else {
			m.drag(at, at.Add(image.Pt(20, 90)))
		}
		if tool.text {
			d.page().(*stillsPage).text.SetText("warmer here")
		}
		kinds = append(kinds, tool.name)
	}
	if n := len(d.still.list.All()); n != len(kinds) {
		t.Fatalf("%d notes of the kinds %v", n, kinds)
	}
	measured := d.still.painted.Measure()
	if measured.Light == nil || measured.Shadow == nil {
		t.Fatal("painted light and shadow are not measured")
	}
	before := d.still.list.All()
	for range 30 { // the words of the label are steps too
		d.undoNotes()
	}
	if n := len(d.still.list.All()); n != 0 {
		t.Fatalf("%d notes after undoing everything", n)
	}
	if m := d.still.painted.Measure(); m.Light != nil || m.Shadow != nil {
		t.Error("undone areas are still measured")
	}
	for range 30 {
		d.redoNotes()
	}
	after := d.still.list.All()
	if len(after) != len(before) {
		t.Fatalf("%d notes after doing all again, want %d", len(after), len(before))
	}
	d.saver.flush()
	again, err := d.options.Stills.Open(d.still.ID)
	if err != nil {
		t.Fatal(err)
	}
	if len(again.Notes.Notes) != len(before) {
		t.Fatalf("%d notes on the disk, want %d", len(again.Notes.Notes), len(before))
	}
	for i, n := range again.Notes.Notes {
		if !notes.Equal(n, before[i]) {
			t.Errorf("note %d came back as %+v, was %+v", i, n, before[i])
		}
	}
}

// A note is taken hold of, carried, nudged, deleted; a click on nothing lets go of it.
func TestHandOnNotes(t *testing.T) {
	d := newTestDesk(t, Defaults())
	openNewStill(t, d, halves(testLight, testShadow))
	m := d.parts.mirror
	d.setTool(4) // a box
	m.drag(image.Pt(100, 100), image.Pt(200, 180))
	d.setTool(0)
	box := func() notes.Box { return d.still.list.All()[0].Shape.(notes.Box) }
	was := box()
	m.press(image.Pt(150, 140), 0) // inside of the box lies the picture, not the note
	if _, ok := d.still.note(); ok {
		t.Error("a click inside of a box selects it")
	}
	m.drag(image.Pt(150, 100), image.Pt(180, 130)) // by its upper edge
	if way := box().From.Minus(was.From); math.Abs(way.X-30) > 1.5 || math.Abs(way.Y-30) > 1.5 {
		t.Errorf("carried by (30,30) the box went %v", way)
	}
	at := box().From
	m.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if got := box().From.X - at.X; got != 1 {
		t.Errorf("an arrow key moves it by %g pixels", got)
	}
	d.undoNotes()
	d.undoNotes()
	if box() != was {
		t.Errorf("undone, it lies at %+v, was at %+v", box(), was)
	}
	m.press(image.Pt(150, 100), 0)
	d.typedKey(fyne.KeyDelete)
	if len(d.still.list.All()) != 0 {
		t.Error("Delete does not delete the note")
	}
	d.setTool(3)
	m.press(image.Pt(50, 50), 0)
	if len(d.still.list.All()) != 0 {
		t.Error("a mere click draws a ring without size")
	}
	d.setTool(5)
	m.press(image.Pt(50, 50), 0)
	d.selectNote("")
	if len(d.still.list.All()) != 0 {
		t.Error("a label without words stays")
	}
}

// Notes stay where they are in the picture when it is enlarged, and are drawn in each view.
func TestNotesFollowTheZoom(t *testing.T) {
	d := newTestDesk(t, Defaults())
	openNewStill(t, d, halves(testLight, testLight))
	m := d.parts.mirror
	d.setTool(4)
	m.drag(image.Pt(100, 100), image.Pt(200, 180))
	drawn := func() int {
		n := 0
		for i := 3; i < len(m.over[overlayNotes].Pix); i += 4 {
			if m.over[overlayNotes].Pix[i] != 0 {
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
		m.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: m.fit.pane(image.Pt(300, 250))}, Scrolled: fyne.NewDelta(0, 1)})
		d.see(t, halves(testLight, testLight))
	}
	if part := m.fit.Bounds; image.Rect(100, 100, 200, 180).Overlaps(part) {
		t.Fatalf("the part %v shows the box", part)
	}
	if n := drawn(); n != 0 {
		t.Errorf("%d pixels of a note are drawn that isn't in sight", n)
	}
	m.Zoom(0)
	for _, view := range []string{"grey", "colour", "bands"} {
		d.setView(view)
		d.see(t, halves(testLight, testLight))
		if n := drawn(); n != whole {
			t.Errorf("in the view %s %d pixels of notes are drawn, before %d", view, n, whole)
		}
	}
}

func TestShelf(t *testing.T) {
	d := newTestDesk(t, Defaults())
	p := openNewStill(t, d, halves(testLight, testShadow))
	id := d.still.ID
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
	d.deleteStill(id)
	if len(p.shelf.shown) != 0 || d.setup.Source.Kind == sourceStill {
		t.Error("a deleted still stays on the shelf or in the mirror")
	}
	d.Undo()
	if len(p.shelf.shown) != 1 {
		t.Error("the still does not come back")
	}
	d.deleteStill(id)
	d.parts.strip.acts[stripNote].do() // bring it back
	if len(p.shelf.shown) != 1 {
		t.Error("the still does not come back by the strip's button")
	}
}

// A still's time is that of keeping it, whatever the age of its frame, and stills of one frame
// kept within a second stand in the order in which they were kept.
func TestStillsAreOfTheMomentOfKeeping(t *testing.T) {
	d := newTestDesk(t, Defaults())
	d.see(t, halves(testLight, testShadow))
	began := time.Now()
	var copied *copiedPicture
	d.copyPicture(func(c *copiedPicture) { copied = c })
	d.see(t, halves(testLight, testShadow))
	copied.at = began.Add(-time.Hour)
	var order []string
	for range 6 {
		d.keepCopy(copied, false)
		list, _, err := d.options.Stills.List()
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
	d := newTestDesk(t, Defaults())
	grey := func(v uint8) color.NRGBA { return color.NRGBA{v, v, v, 255} }
	p := openNewStill(t, d, halves(grey(200), grey(120)))
	before := d.still.ID
	d.closeStill()
	now := halves(grey(200), grey(60))
	d.see(t, now)
	d.askCompare()
	p.shelf.chosen(0)
	d.see(t, now)
	d.see(t, now)
	if d.comparison.id != before || d.comparison.found == nil {
		t.Fatal("nothing was compared")
	}
	// sRGB 120 and 60 have the values 4.92 and 2.49 (IEC 61966-2-1, D1535)
	if got := p.compare.words.Text; !strings.Contains(got, "Shadows 2.4"+nbsp+"tones darker") {
		t.Errorf("the change is said as %q", got)
	}
	over := func() *image.RGBA { return d.parts.mirror.over[overlayBefore] }
	size := d.parts.mirror.pixels()
	d.looked(image.Pt(300, 100), true) // the wipe follows the pointer
	left, right := over().RGBAAt(size.X*6/10, 10), over().RGBAAt(size.X*9/10, 10)
	if left.R != 120 || left.A != 255 || right.A != 0 {
		t.Errorf("left of the wipe shows %v, right of it %v", left, right)
	}
	d.setCompare(compareMap)
	// nothing changed on the left: L* 50 is the grey 119 (CIE15); much darker is black
	if same, darker := over().RGBAAt(size.X/4, 10), over().RGBAAt(size.X*3/4, 10); same.R != 119 || darker.R > 60 {
		t.Errorf("in the map no change is %v, darker %v", same, darker)
	}
	d.setCompare(compareSides)
	d.see(t, now)
	m := d.parts.mirror
	if sizeOf(m.before) != m.pixels() {
		t.Fatalf("beside the picture of %v stands one of %v", m.pixels(), sizeOf(m.before))
	}
	darkSide := func(img *image.RGBA) uint8 { return img.RGBAAt(img.Rect.Dx()*3/4, img.Rect.Dy()/2).R }
	if was, is := darkSide(m.before), darkSide(m.img); was != 120 || is != 60 {
		t.Errorf("the darker sides are %d before and %d now, want 120 and 60", was, is)
	}
	if m.laid.small.X+m.laid.size.Width > m.fit.Pos.X && m.laid.small.Y+m.laid.size.Height > m.fit.Pos.Y {
		t.Errorf("the two lie over each other: %+v", m.laid)
	}
	d.endCompare()
	d.see(t, now)
	if over() != nil || m.halves || m.pixels() != size {
		t.Error("the picture from before stays")
	}
}

// Whatever keys are held down, pictures in turns switch no more than three times a second
// (WCAG 2.2, success criterion 2.3.1, allows three flashes, of two switches each).
func TestTurnsNeverFlash(t *testing.T) {
	d := newTestDesk(t, Defaults())
	d.later = func(time.Duration, func()) {}
	p := openNewStill(t, d, halves(testLight, testShadow))
	d.closeStill()
	now := halves(testShadow, testLight)
	d.see(t, now)
	d.askCompare()
	p.shelf.chosen(0)
	d.see(t, now)
	d.see(t, now)
	d.setCompare(compareTurns)
	middle := d.parts.mirror.pixels().Div(2)
	before := func() bool { return d.parts.mirror.over[overlayBefore].RGBAAt(middle.X, middle.Y).A != 0 }
	switches, shown := 0, before()
	for began := time.Now(); time.Since(began) < 900*time.Millisecond; {
		d.typedRune('n')
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
	d := newTestDesk(t, Defaults())
	openNewStill(t, d, form())
	d.setTool(2)
	d.parts.mirror.drag(image.Pt(100, 100), image.Pt(200, 180))
	dir := t.TempDir()
	for _, way := range handOnWays() {
		for _, ending := range way.endings {
			path := filepath.Join(dir, "still"+way.suffix+ending)
			d.handOn(way, path)
			if info, err := os.Stat(path); err != nil || info.Size() < 100 || info.Mode().Perm() != 0o600 {
				t.Errorf("%s as %s: %v, %v; the window says %q", way.name, ending, info, err, d.parts.strip.said[stripNote])
			}
		}
	}
	d.handOn(handOnWays()[0], filepath.Join(dir, "no", "such", "folder.pdf"))
	if got := d.parts.strip.said[stripNote]; !strings.Contains(got, "Can't write") {
		t.Errorf("a folder that isn't there is answered by %q", got)
	}
}

// Nothing is removed before the painter agrees; what is removed then is what was listed.
func TestLimitAsksFirst(t *testing.T) {
	d := newTestDesk(t, Defaults())
	p := openNewStill(t, d, form())
	d.closeStill()
	d.see(t, form())
	d.KeepStill(false)
	d.see(t, form())
	if n := len(p.shelf.all); n != 2 {
		t.Fatalf("%d stills are kept", n)
	}
	over, err := d.options.Stills.Over(1)
	if err != nil || len(over.Removals) != 1 {
		t.Fatalf("over the limit: %+v, %v", over, err)
	}
	if got := plainSay(SayOver(over)); !strings.Contains(got, "is not enough: "+plainSay(BytesSay(over.After))+" would stay. Raise the limit") {
		t.Errorf("it says %q", got)
	}
	if over, err = d.options.Stills.Over(over.Used - 1); err != nil || len(over.Removals) != 1 {
		t.Fatalf("over the limit: %+v, %v", over, err)
	}
	if n := len(p.shelf.all); n != 2 {
		t.Error("asking what is over the limit removes something")
	}
	if got := SayOver(over); !strings.Contains(got, "1"+nbsp+"of the oldest would be removed for good") {
		t.Errorf("it says %q", got)
	}
	d.askClear(over)
	if b := buttonNamed(t, d, "Remove"); b.Importance == widget.HighImportance {
		t.Error("removing is urged")
	}
	d.clearStills(over)
	if n := len(p.shelf.all); n != 1 || p.shelf.all[0].ID == over.Removals[0].ID {
		t.Errorf("%d stills are left, among them perhaps the one to go", n)
	}
}

// buttonNamed returns the button of the dialog on top.
func buttonNamed(t *testing.T, d *Desk, name string) *widget.Button {
	t.Helper()
	for _, o := range test.LaidOutObjects(d.window.Canvas().Overlays().Top()) {
		if b, ok := o.(*widget.Button); ok && b.Text == name {
			return b
		}
	}
	t.Fatalf("there is no button %q", name)
	return nil
}

// Where even the newest still alone is too large, there is nothing to remove.
func TestLimitUnderTheNewest(t *testing.T) {
	over := stills.Clearing{Used: 3 << 20, Limit: 1 << 20, After: 3 << 20}
	if got := plainSay(SayOver(over)); got != "The stills take 3.0 MiB, more than the 1.0 MiB that they may. There is nothing older to remove. Raise the limit in the settings." {
		t.Errorf("it says %q", got)
	}
}

// A still that is gone under an open shelf doesn't take away what was watched.
func TestStillGone(t *testing.T) {
	d := newTestDesk(t, Defaults())
	p := openNewStill(t, d, form())
	d.closeStill()
	d.see(t, form())
	before := d.setup.Source
	id := p.shelf.shown[0].ID
	if err := d.options.Stills.Delete(id); err != nil { // another window does
		t.Fatal(err)
	}
	d.OpenStill(id)
	_, err := d.stillStream(id)
	d.setStatus(capture.Status{Err: err})
	if d.setup.Source != before || len(p.shelf.shown) != 0 {
		t.Errorf("watched is %+v, the shelf shows %d stills", d.setup.Source, len(p.shelf.shown))
	}
	d.Undo()
	if d.setup.Source.Kind == sourceStill {
		t.Error("undo goes to a still that is gone")
	}
}

// The hand moves an enlarged picture where it takes hold of no note.
func TestHandMovesThePicture(t *testing.T) {
	d := newTestDesk(t, Defaults())
	img := form()
	openNewStill(t, d, img)
	m := d.parts.mirror
	m.Zoom(4)
	d.see(t, img)
	part := m.fit.Bounds
	m.drag(part.Min.Add(image.Pt(60, 50)), part.Min.Add(image.Pt(30, 30)))
	d.see(t, img)
	if got := m.fit.Bounds.Min.Sub(part.Min); got != image.Pt(30, 20) {
		t.Errorf("dragged by (-30,-20) the picture moved by %v", got)
	}
}

// Back from a still, the spots from before are there again.
func TestSpotsComeBackAfterAStill(t *testing.T) {
	d := newTestDesk(t, Defaults())
	d.openPage(pageIndex(stillsName))
	img := halves(testLight, testShadow)
	d.see(t, img)
	d.parts.mirror.press(image.Pt(100, 150), 0)
	d.parts.mirror.press(image.Pt(300, 150), 0)
	d.KeepStill(true)
	d.see(t, img)
	d.seeStill(t)
	if len(d.setup.Places) != 0 {
		t.Error("the spots lie on the still")
	}
	d.closeStill()
	d.see(t, img)
	if len(d.setup.Places) != 2 {
		t.Errorf("%d spots are back", len(d.setup.Places))
	}
}

// While something is drawn the picture stays where it is, whatever the page has to say, and
// a straight drag becomes a straight area; also in the narrowest window.
func TestPictureStaysUnderPen(t *testing.T) {
	for _, width := range []float32{minWidth, 380} {
		s := Defaults()
		s.Page, s.Width, s.Height = stillsName, width, 700
		d := newTestDesk(t, s)
		d.page().(*stillsPage).showPart(partMarks)
		openNewStill(t, d, halves(testLight, testShadow))
		m := d.parts.mirror
		for i, tool := range noteTools() {
			if tool.name != "Light" && tool.name != "Shadow" {
				continue
			}
			d.setTool(i)
			d.parts.strip.clear(stripNote)
			d.see(t, halves(testLight, testShadow))
			before, y := m.fit, float64(60+30*i)
			d.pen.Down(60, y, false)
			for x := 70; x < 300; x += 10 {
				d.pen.Move(float64(x), y, false)
				if m.fit.Pos != before.Pos || m.fit.Size != before.Size {
					t.Fatalf("at %g wide, %s moved the picture from %v to %v", width, tool.name, before, m.fit)
				}
			}
			d.parts.strip.say(stripNote, "Something is said at the top, in the picture's place.")
			if m.fit.Size != before.Size {
				t.Errorf("at %g wide, a sentence moved the picture under the pen", width)
			}
			d.pen.Up()
			d.parts.strip.clear(stripNote)
			if m.fit.Size != before.Size {
				t.Errorf("at %g wide, after %s the picture is %v, was %v", width, tool.name, m.fit, before)
			}
		}
	}
}

// The shelf counts the notes of now when it is opened, and when they are saved while it is
// seen.
func TestShelfCountsNotes(t *testing.T) {
	d := newTestDesk(t, Defaults())
	p := openNewStill(t, d, halves(testLight, testShadow))
	settle := queueSoon(d)
	d.saver.saved = d.notesSaved
	draw := func(at int) {
		d.setTool(2)
		d.parts.mirror.drag(image.Pt(at, 60), image.Pt(at+40, 150))
		settle()
	}
	count := func() int { return p.shelf.shown[0].Notes.Count }
	draw(40)
	p.parts.choose(partShelf)
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
	d := newTestDesk(t, Defaults())
	p := openNewStill(t, d, halves(testLight, testShadow))
	d.setTool(2)
	if p.tools.rows[0].chosen != 2 {
		t.Fatalf("tool %d is underlined, want 2", p.tools.rows[0].chosen)
	}
	d.deleteStill(d.still.ID)
	if a, b := p.tools.rows[0].chosen, p.tools.rows[1].chosen; a >= 0 || b >= 0 {
		t.Errorf("tools %d and %d are underlined without a still", a, b)
	}
}

// That a picture was kept is said until something else is done; another answer stays.
func TestKeptIsSaidUntilMore(t *testing.T) {
	d := newTestDesk(t, Defaults())
	for name, do := range map[string]func(){
		"another page": func() { d.openPage(pageIndex(stillsName)) },
		"another part": func() {
			d.openPage(pageIndex(stillsName))
			d.parts.strip.say(stripNote, keptWords)
			d.showStillsPart(partMarks)
		},
		"another source": func() { d.watch(source{Kind: sourcePicture, Path: "x.png"}) },
	} {
		d.see(t, halves(testLight, testShadow))
		d.KeepStill(false)
		d.see(t, halves(testLight, testShadow))
		if d.parts.strip.said[stripNote] != "Kept as a still." {
			t.Fatalf("kept, it says %q", d.parts.strip.said[stripNote])
		}
		do()
		if said := d.parts.strip.said[stripNote]; said != "" {
			t.Errorf("after %s it still says %q", name, said)
		}
		d.parts.strip.say(stripNote, "Something else.")
		do()
		if said := d.parts.strip.said[stripNote]; said == "" && name == "another page" {
			t.Errorf("%s takes another answer away", name)
		}
	}
}

// The map's scale runs from black over the grey of no change to white, inside the picture.
func TestMapScale(t *testing.T) {
	d := newTestDesk(t, Defaults())
	img := image.NewRGBA(image.Rect(0, 0, 400, 300))
	d.drawMapScale(img, 5)
	bar := scaleBar(img.Rect.Size(), float64(d.parts.mirror.scale()))
	if !bar.In(img.Rect) || bar.Dx()%2 != 0 {
		t.Fatalf("the bar lies at %v", bar)
	}
	y := bar.Min.Y + bar.Dy()/2
	// L* of sRGB grey 118 is 49.7 and of 119 is 50.0 (CIE 15): no change is that, within a step.
	left, middle, right := img.RGBAAt(bar.Min.X, y).R, img.RGBAAt(bar.Min.X+bar.Dx()/2, y).R, img.RGBAAt(bar.Max.X-1, y).R
	if left != 0 || middle < 116 || middle > 122 || right != 255 {
		t.Errorf("the scale runs %d, %d, %d", left, middle, right)
	}
	marked := 0
	for x := range img.Rect.Dx() {
		for y := range bar.Min.Y - 2 {
			if img.RGBAAt(x, y).A != 0 {
				marked++
			}
		}
	}
	if marked < 50 {
		t.Error("the scale has no figures")
	}
	small := image.NewRGBA(image.Rect(0, 0, 30, 20))
	d.drawMapScale(small, 5)
	for _, b := range small.Pix {
		if b != 0 {
			t.Fatal("a scale is drawn where there is no room")
		}
	}
}
