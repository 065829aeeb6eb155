package gui

import (
	"image"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/structure"
	"app.tonedesk/gui/widgets"
)

// guess is a made-up family, a box whose left half is its light, of invented colours.
type guess struct {
	x             int // of its left edge
	light, shadow colour.RGB
	confidence    float64
}

var (
	skinGuess  = guess{40, colour.RGB{R: 226, G: 171, B: 133}, colour.RGB{R: 178, G: 106, B: 92}, 0.9}
	coatGuess  = guess{150, colour.RGB{R: 60, G: 150, B: 160}, colour.RGB{R: 30, G: 80, B: 120}, 0.8}
	stoneGuess = guess{260, colour.RGB{R: 160, G: 160, B: 150}, colour.RGB{R: 110, G: 112, B: 120}, 0.3}
)

// foundOf is what a search would have found in the picture that is watched, of 400 by 300
// pixels, where all lies by so much further right.
func (d *Desk) foundOf(by int, all ...guess) live.Found {
	f := live.Found{Found: &families.Found{Width: 400, Height: 300, Map: make([]uint8, 400*300)}, Source: d.setup.Source, Size: image.Pt(400, 300)}
	for k, g := range all {
		family := families.Of(analysis.SpotOf(g.light), analysis.SpotOf(g.shadow), families.DefaultRules())
		x, y := g.x+by, 100
		family.Light.X, family.Light.Y, family.Shadow.X, family.Shadow.Y = new(x+10), new(y), new(x+50), new(y)
		family.Confidence, family.Share = &g.confidence, new(0.05)
		f.List = append(f.List, family)
		for v := 80; v < 160; v++ {
			for u := x; u < x+80; u++ {
				f.Map[400*v+u] = uint8(4*k + 1 + (u-x)/40)
			}
		}
	}
	return f
}

// paintedAs paints it.
func paintedAs(by int, all ...guess) *image.NRGBA {
	img := guitest.Halves(guitest.Light, guitest.Light)
	for i := range img.Pix {
		img.Pix[i] = 220
	}
	for _, g := range all {
		for y := 80; y < 160; y++ {
			for x := range 80 {
				c := g.light
				if x >= 40 {
					c = g.shadow
				}
				copy(img.Pix[img.PixOffset(g.x+by+x, y):], []byte{c.R, c.G, c.B, 255})
			}
		}
	}
	return img
}

// lightsOf are the light sides of the rows that are seen.
func lightsOf(list *structure.FamilyList) (lights []colour.RGB) {
	for _, row := range list.Rows() {
		lights = append(lights, row.Text().Light)
	}
	return lights
}

// judgedDesk is a desk on the structure page with a sure family, another, and an unsure one.
func judgedDesk(t *testing.T) (*Desk, *structurePage) {
	t.Helper()
	d := newTestDesk(t, settings.Defaults())
	p := openStructure(t, d)
	d.see(t, paintedAs(0, skinGuess, coatGuess, stoneGuess))
	d.families.TakeFound(d.foundOf(0, skinGuess, coatGuess, stoneGuess))
	return d, p
}

// leave is what happens when the pointer has left the list.
func (d *Desk) leaveRows(p *structurePage) {
	later := d.Later
	d.Later = func(_ time.Duration, f func()) (stop func()) { f(); return func() {} }
	for _, row := range p.families.Rows() {
		if !row.Pointed() {
			row.MouseIn(&desktop.MouseEvent{})
		}
		row.MouseOut()
	}
	d.Later = later
}

func wantLights(t *testing.T, when string, p *structurePage, want ...guess) {
	t.Helper()
	var lights []colour.RGB
	for _, g := range want {
		lights = append(lights, g.light)
	}
	if got := lightsOf(p.families); !slices.Equal(got, lights) {
		t.Errorf("%s: the rows are %v, want %v", when, got, lights)
	}
}

func wantHeads(t *testing.T, when string, p *structurePage, want ...string) {
	t.Helper()
	var words []string
	for _, head := range p.families.Heads() {
		words = append(words, head.Text)
	}
	if !slices.Equal(words, want) {
		t.Errorf("%s: the folds are %q, want %q", when, words, want)
	}
}

// The unsure are folded, and opened they have colours and no verdict.
func TestUnsureAreFolded(t *testing.T) {
	d, p := judgedDesk(t)
	wantLights(t, "at first", p, skinGuess, coatGuess)
	wantHeads(t, "at first", p, "Unsure (1)")
	test.Tap(p.families.Heads()[0])
	wantLights(t, "unfolded", p, skinGuess, coatGuess, stoneGuess)
	if text := p.families.Rows()[2].Text(); text.Says != "" || text.Tones != "" || len(text.Remarks) > 0 {
		t.Errorf("a verdict on what is unsure: %+v", text)
	}
	stone := stoneGuess
	for _, step := range []struct {
		confidence float64
		sure       int
	}{{0.49, 2}, {0.5, 3}, {0.42, 3}, {0.39, 2}} { // SureFrom, and under it for a while
		stone.confidence = step.confidence
		d.families.TakeFound(d.foundOf(0, skinGuess, coatGuess, stone))
		if n := len(d.families.FoundList()); n != step.sure {
			t.Errorf("with confidence %g %d are sure, want %d", step.confidence, n, step.sure)
		}
	}
}

// What is not this is not listed, not outlined, through pans and searches, until it is undone
// or shown again; the row stays where it was pressed until it is left.
func TestNotThis(t *testing.T) {
	d, p := judgedDesk(t)
	row := p.families.Rows()[0]
	var settled []func()
	later := d.Later
	d.Later = func(_ time.Duration, f func()) (stop func()) { settled = append(settled, f); return func() {} }
	row.MouseIn(&desktop.MouseEvent{})
	if test.Tap(row.Cross); len(d.setup.Judged) != 0 || len(d.setup.Places) != 2 {
		t.Error("a tap where the cross has only just come is not the row's")
	}
	settled[0]()
	d.Later = later
	test.Tap(row.Cross)
	wantLights(t, "pressed", p, skinGuess, coatGuess)
	if text := row.Text(); text.Keep != "Show" || text.Cross != "" || text.Says != "not shown" {
		t.Errorf("the row says %+v", text)
	}
	d.leaveRows(p)
	wantLights(t, "left", p, coatGuess)
	wantHeads(t, "left", p, "Unsure (1)", "Not shown (1)")
	for by := range 5 {
		d.families.TakeFound(d.foundOf(10*by, coatGuess, skinGuess, stoneGuess))
		wantLights(t, "panned", p, coatGuess)
	}
	d.Undo()
	wantLights(t, "undone", p, skinGuess, coatGuess)
	d.Redo()
	wantLights(t, "done again", p, coatGuess)
	d.families.TakeFound(d.foundOf(0, coatGuess)) // it may go, and come back
	d.families.TakeFound(d.foundOf(0, coatGuess))
	d.families.TakeFound(d.foundOf(0, coatGuess, skinGuess))
	wantLights(t, "found again", p, coatGuess)
	test.Tap(p.families.Heads()[len(p.families.Heads())-1])
	rows := p.families.Rows()
	test.Tap(rows[len(rows)-1].Keep)
	d.leaveRows(p)
	if got := lightsOf(p.families); !slices.Contains(got, skinGuess.light) || len(d.setup.Judged) != 0 {
		t.Errorf("shown again: %v, judged %+v", got, d.setup.Judged)
	}
}

// What is kept is listed with its verdict, however unsure, and where it is not found any more it
// is read where it was, or says that it is gone.
func TestKeep(t *testing.T) {
	d, p := judgedDesk(t)
	test.Tap(p.families.Heads()[0])
	test.Tap(p.families.Rows()[2].Keep)
	wantHeads(t, "pressed", p, "Unsure (1)")
	d.leaveRows(p)
	wantLights(t, "kept", p, skinGuess, coatGuess, stoneGuess)
	wantHeads(t, "kept", p)
	row := p.families.Rows()[2]
	if text := row.Text(); text.Keep != "Kept" || text.Says == "" {
		t.Errorf("the row says %+v", text)
	}
	verdict := row.Text().Says
	d.families.TakeFound(d.foundOf(20, skinGuess, coatGuess))
	d.see(t, paintedAs(20, skinGuess, coatGuess, stoneGuess))
	if text := row.Text(); text.Says != verdict || text.Below != "not found now: read where it was" || text.Light != stoneGuess.light {
		t.Errorf("not found, after a pan, the row says %+v", text)
	}
	test.Tap(row)
	if off := d.setup.Places[0].At.Sub(image.Pt(stoneGuess.x+10+20, 100)); off.X*off.X+off.Y*off.Y > 3*3 { // three pixels lie between two points of the grid
		t.Errorf("its light becomes a spot at %v", d.setup.Places[0].At)
	}
	d.see(t, paintedAs(20, skinGuess, coatGuess)) // painted over
	if text := row.Text(); text.Says != "not found now" || text.Tones != "" {
		t.Errorf("gone, the row says %+v", text)
	}
	for range 3 {
		d.families.TakeFound(d.foundOf(0, skinGuess, coatGuess))
	}
	stone := stoneGuess
	stone.confidence = 0.1
	d.families.TakeFound(d.foundOf(0, skinGuess, coatGuess, stone))
	if text := p.families.Rows()[2].Text(); text.Says != verdict || text.Light != stone.light {
		t.Errorf("found again, the row says %+v", text)
	}
	test.Tap(p.families.Rows()[2].Keep) // no longer
	d.leaveRows(p)
	wantHeads(t, "left to the search", p, "Unsure (1)")
	d.Undo()
	wantHeads(t, "undone", p)
}

// What is missing in one search stays in its row; without another one it goes after a while.
func TestMissingOnceStays(t *testing.T) {
	d, p := judgedDesk(t)
	var late func()
	d.Later = func(_ time.Duration, f func()) (stop func()) { late = f; return func() { late = nil } }
	d.families.TakeFound(d.foundOf(0, coatGuess, stoneGuess))
	wantLights(t, "missing", p, skinGuess, coatGuess)
	d.families.TakeFound(d.foundOf(0, skinGuess, coatGuess, stoneGuess))
	wantLights(t, "back", p, skinGuess, coatGuess)
	if late != nil {
		t.Error("what is back still waits to be dropped")
	}
	d.families.TakeFound(d.foundOf(0, coatGuess, stoneGuess))
	late()
	wantLights(t, "after a while", p, coatGuess)
}

// All of it can be done by keys: buttons are in the way of the focus, and press.
func TestJudgedByKeys(t *testing.T) {
	d, p := judgedDesk(t)
	c := d.Window.Canvas()
	c.Focus(p.families.Rows()[0])
	c.FocusNext()
	if c.Focused() != fyne.Focusable(p.families.Rows()[0].Keep) {
		t.Fatalf("after the row the focus is on %T", c.Focused())
	}
	if d.Mirror.Overlay(widgets.OverlayOutline) == nil {
		t.Error("the button of a row outlines nothing")
	}
	c.FocusNext()
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if len(d.setup.Judged) != 1 || d.setup.Judged[0].Kept {
		t.Fatalf("judged: %+v", d.setup.Judged)
	}
	if c.Focused() != fyne.Focusable(p.families.Rows()[0].Keep) {
		t.Errorf("the focus has gone to %T", c.Focused())
	}
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) // shown again
	if len(d.setup.Judged) != 0 {
		t.Errorf("judged: %+v", d.setup.Judged)
	}
	c.Focus(p.families.Rows()[1])
	p.families.Rows()[1].TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	if len(d.setup.Judged) != 1 {
		t.Error("Delete does nothing")
	}
}

// What was said of local colours goes into a still with the places of now, comes back when it
// is opened, and what is said then is kept in it.
func TestJudgedInAStill(t *testing.T) {
	d, p := judgedDesk(t)
	test.Tap(p.families.Rows()[0].Cross)
	test.Tap(p.families.Rows()[1].Keep)
	d.families.TakeFound(d.foundOf(-20, skinGuess, coatGuess, stoneGuess))
	img := paintedAs(-20, skinGuess, coatGuess, stoneGuess)
	d.see(t, img)
	d.stills.keep(true)
	d.see(t, img)
	d.seeStill(t)
	meta := d.marker.Still().Meta
	if len(meta.LocalColours) != 2 {
		t.Fatalf("the still says %+v", meta.LocalColours)
	}
	if c := meta.LocalColours[0]; c.Kept || c.Light.Colour != skinGuess.light || c.Light.X != skinGuess.x+10-20 || c.Shadow.X != skinGuess.x+50-20 || c.Light.Y != 100 {
		t.Errorf("refused is %+v", c)
	}
	if c := meta.LocalColours[1]; !c.Kept || c.Light.Colour != coatGuess.light {
		t.Errorf("kept is %+v", c)
	}
	p = openStructure(t, d)
	d.see(t, img)
	d.families.TakeFound(d.foundOf(-20, coatGuess, skinGuess, stoneGuess))
	wantLights(t, "opened", p, coatGuess)
	wantHeads(t, "opened", p, "Unsure (1)", "Not shown (1)")
	test.Tap(p.families.Rows()[0].Keep) // no longer kept
	d.see(t, img)
	kept, err := d.Store.Meta(d.marker.Still().ID)
	if err != nil || len(kept.LocalColours) != 1 || kept.LocalColours[0].Kept {
		t.Errorf("the still says %+v, %v", kept.LocalColours, err)
	}
	d.Undo()
	if kept, err = d.Store.Meta(d.marker.Still().ID); err != nil || len(kept.LocalColours) != 2 {
		t.Errorf("after undo the still says %+v, %v", kept.LocalColours, err)
	}
	d.stills.back()
	d.see(t, img)
	if n := len(d.setup.Judged); n != 2 {
		t.Errorf("back at the picture %d are judged", n)
	}
	d.families.TakeFound(d.foundOf(-20, coatGuess, skinGuess, stoneGuess))
	d.leaveRows(p)
	wantLights(t, "back", p, coatGuess)
}

// Another picture begins anew.
func TestJudgedOfAnotherPicture(t *testing.T) {
	d, p := judgedDesk(t)
	test.Tap(p.families.Rows()[0].Cross)
	d.OpenPicture("another.png")
	d.families.TakeFound(d.foundOf(0, skinGuess, coatGuess))
	wantLights(t, "another", p, skinGuess, coatGuess)
	d.Undo()
	d.families.TakeFound(d.foundOf(0, coatGuess, skinGuess))
	wantLights(t, "the one before", p, coatGuess)
}
