package gui

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/settings"
)

// Whoever goes through a page by keyboard sees where they are.
func TestFocusIsSeen(t *testing.T) {
	s := settings.Defaults()
	s.Page, s.Width, s.Height = "Colours", 380, 700
	d := newTestDesk(t, s)
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	press(d.Mirror, d.Mirror.Bounds().Min, 0)
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	canvas, lower := d.Window.Canvas(), d.parts.lower
	top := func(o fyne.CanvasObject) float32 {
		return d.App.Driver().AbsolutePositionForObject(o).Y - d.App.Driver().AbsolutePositionForObject(lower).Y
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
	return !slices.Contains(test.LaidOutObjects(d.parts.lower.Content), o)
}
