package gui

import (
	"image"
	"image/color"
	"strings"
	"testing"

	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
)

// The middle of the sun in the demo painting.
var inTheSun = image.Pt(235, 352)

// marked asks for a focus by its key, clicks there, and has it measured.
func marked(t *testing.T, d *Desk, img *image.NRGBA, at image.Point) {
	t.Helper()
	d.TypedRune('j')
	press(d.Mirror, at, 0)
	d.see(t, img)
	for d.families.Search.RunOnce() {
	}
	d.see(t, img)
}

// The key opens the page, a click marks a place, and the card says whether the strongest contrast lies
// there; a second place may be it. A click in a ring takes it away, undo brings it back, and spots
// are not touched.
func TestFocus(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := pool()
	d.see(t, img)
	marked(t, d, img, image.Pt(80, 80))
	p, ok := d.page().(*structurePage)
	if !ok || len(d.setup.Places) != 0 {
		t.Fatalf("open is %T, with spots %v", d.page(), d.setup.Places)
	}
	says := func() string { return strings.Join(append(p.focus.Text().Lines, p.focus.Text().Quiet...), " ") }
	if got := says(); !strings.HasPrefix(got, "The strongest contrast lies elsewhere, at the lower right. ") {
		t.Fatal(got)
	}
	elsewhere := d.Mirror.Overlay(widgets.OverlayFocus)
	if elsewhere == nil || drawnPixels(elsewhere) == 0 {
		t.Fatal("no ring is drawn")
	}
	guitest.AssertNeutral(t, elsewhere)
	marked(t, d, img, image.Pt(325, 235))
	if got := says(); !strings.HasPrefix(got, "The strongest contrast lies there, at the lower right. ") || !strings.Contains(got, "The marked place at the upper left has 0\u00a0% of it.") {
		t.Fatal(got)
	}
	d.flip()
	d.see(t, img)
	if got := says(); !strings.Contains(got, "there, at the lower left.") {
		t.Errorf("flipped, it says %s", got)
	}
	d.flip()
	d.see(t, img)
	marked(t, d, img, image.Pt(322, 240)) // within the ring
	if len(d.setup.Focus) != 1 || !strings.Contains(says(), "elsewhere") {
		t.Fatalf("%v: %s", d.setup.Focus, says())
	}
	d.Undo()
	if len(d.setup.Focus) != 2 || !strings.Contains(says(), "lies there") {
		t.Errorf("undone: %v, %s", d.setup.Focus, says())
	}
	d.openPage(pageIndex(settings.PageWatch))
	if d.Mirror.Overlay(widgets.OverlayFocus) != nil {
		t.Error("rings stay on another page")
	}
	d.openPage(pageIndex(settings.PageStructure))
	d.see(t, img)
	p.focus.Cross.Tapped(nil)
	if len(d.setup.Focus) != 0 || says() != "" || d.Mirror.Overlay(widgets.OverlayFocus) != nil {
		t.Errorf("cleared: %v, %q", d.setup.Focus, says())
	}
	d.Undo()
	if len(d.setup.Focus) != 2 {
		t.Errorf("undone: %v", d.setup.Focus)
	}
}

// greyOf is an opaque grey.
func greyOf(v uint8) color.NRGBA { return color.NRGBA{v, v, v, 255} }

// pool is a light disc on a grey ground, at the lower right.
func pool() *image.NRGBA {
	grey := guitest.Halves(greyOf(120), greyOf(120))
	for y := range 300 {
		for x := range 400 {
			if dx, dy := x-320, y-230; dx*dx+dy*dy < 15*15 {
				grey.SetNRGBA(x, y, greyOf(240))
			}
		}
	}
	return grey
}

// A place goes with a picture that is panned, is remembered with its source, and no more places are
// taken than can be.
func TestFocusFollows(t *testing.T) {
	s := settings.Defaults()
	s.Page = settings.PageStructure
	d := newTestDesk(t, s)
	at := image.Pt(200, 120)
	d.see(t, seenAt(t, at))
	marked(t, d, seenAt(t, at), inTheSun.Sub(at))
	was, by := d.setup.Focus[0].At, image.Pt(-24, -28)
	d.see(t, seenAt(t, at.Sub(by)))
	d.see(t, seenAt(t, at.Sub(by)))
	if off := d.setup.Focus[0].At.Sub(was.Add(by)); max(off.X, off.Y, -off.X, -off.Y) > 1 || d.setup.Focus[0].Moved {
		t.Errorf("it lies at %v, was at %v", d.setup.Focus[0], was)
	}
	for i := range setup.MaxFocus + 1 {
		d.families.Focus.Ask()
		press(d.Mirror, image.Pt(60+110*i, 480), 0)
	}
	if len(d.setup.Focus) != setup.MaxFocus {
		t.Errorf("%d places", len(d.setup.Focus))
	}
}

// Into a still go the places of now; what is marked on it stays with it.
func TestFocusOfAStill(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := pool()
	d.see(t, img)
	marked(t, d, img, image.Pt(80, 80))
	openNewStill(t, d, img)
	id := d.marker.Still().ID
	if f := d.setup.Focus; len(f) != 1 || f[0].At.X < 78 || f[0].At.X > 82 {
		t.Fatalf("the still has %v", f)
	}
	d.families.Focus.Clear()
	m, err := d.Store.Meta(id)
	if err != nil || len(m.Focus) != 0 {
		t.Errorf("cleared, it has %v, %v", m.Focus, err)
	}
	d.stills.back()
	if len(d.setup.Focus) != 1 {
		t.Errorf("back, there is %v", d.setup.Focus)
	}
}
