package gui

import (
	"testing"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
)

// By hand, from the rule: what is beyond an edge is brought in, with a step around it; of
// what is higher than the room, the beginning is.
func TestScrollToShow(t *testing.T) {
	for _, tt := range []struct{ top, height, want float32 }{
		{0, 20, 0}, {80, 20, 0}, {81, 20, 1 + widgets.Step}, {200, 20, 120 + widgets.Step}, {-5, 20, -5 - widgets.Step},
		{50, 300, 50 - widgets.Step}, {2, 300, 0},
	} {
		if got := widgets.ScrollToShow(tt.top, tt.height, 100); got != tt.want {
			t.Errorf("from %g, %g high: scrolls by %g, want %g", tt.top, tt.height, got, tt.want)
		}
	}
}

// Whoever goes through a page by keyboard sees where they are.
func TestFocusIsSeen(t *testing.T) {
	s := settings.Defaults()
	s.Page, s.Width, s.Height = "Colours", 380, 700
	d := newTestDesk(t, s)
	d.see(t, halves(testLight, testShadow))
	press(d.mirror, d.mirror.Bounds.Min, 0)
	d.see(t, halves(testLight, testShadow))
	canvas, lower := d.window.Canvas(), d.parts.lower
	top := func(o fyne.CanvasObject) float32 {
		return d.app.Driver().AbsolutePositionForObject(o).Y - d.app.Driver().AbsolutePositionForObject(lower).Y
	}
	seen := 0
	for range 60 {
		canvas.FocusNext()
		o, ok := canvas.Focused().(fyne.CanvasObject)
		if !ok || d.isFixed(o) {
			continue
		}
		seen++
		if y := top(o); y < 0 || y+min(o.Size().Height, lower.Size().Height) > lower.Size().Height+1 {
			t.Errorf("%T has the focus at %g of %g", o, y, lower.Size().Height)
		}
	}
	if seen < 10 {
		t.Errorf("only %d parts of the page had the focus", seen)
	}
}

// isFixed reports whether a part belongs to no page.
func (d *Desk) isFixed(o fyne.CanvasObject) bool {
	switch w := o.(type) {
	case *widgets.Mirror:
		return true
	case *widgets.Button:
		_, is := w.Keys.(fixed)
		return is
	case *widgets.Chooser:
		_, is := w.Keys.(fixed)
		return is
	}
	return false
}
