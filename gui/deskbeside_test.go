package gui

import (
	"image/color"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/settings"
)

// The small picture is the whole one, as greys, also while the large one is enlarged; and
// the places that are clicked on stay right beside it.
func TestSmallBeside(t *testing.T) {
	s := settings.Defaults()
	s.View = "small"
	s = s.WithKnob("small", 64)
	d := newTestDesk(t, s)
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	m := d.Mirror
	small := m.Other().Rect.Size()
	if max(small.X, small.Y) != 64 || m.Arrangement().OnCorner {
		t.Fatalf("beside the picture stands %v", m.Arrangement())
	}
	left, right := m.Other().RGBAAt(2, small.Y/2), m.Other().RGBAAt(small.X-3, small.Y/2)
	grey := func(c color.NRGBA) uint8 {
		return colour.GreyOf(analysis.SpotOf(colour.RGB{R: c.R, G: c.G, B: c.B}).Lightness)
	}
	if wantL, wantR := grey(guitest.Light), grey(guitest.Shadow); left.R != wantL || right.R != wantR || left.R != left.B {
		t.Errorf("its halves are %v and %v, want greys of %d and %d", left, right, wantL, wantR)
	}
	if len(d.last.small) == 0 {
		t.Error("the gaps in it are not measured")
	}
	m.Zoom(4)
	d.see(t, img)
	if m.Fit().Bounds == m.Bounds() || m.Other().RGBAAt(2, small.Y/2) != left || m.Other().RGBAAt(small.X-3, small.Y/2) != right {
		t.Errorf("enlarged to %v, the halves are %v and %v", m.Fit().Bounds, m.Other().RGBAAt(2, small.Y/2), m.Other().RGBAAt(small.X-3, small.Y/2))
	}
	m.Zoom(0)
	d.setView("grey")
	d.see(t, img)
	if m.Other() != nil || len(d.last.small) != 0 {
		t.Error("another view has it too")
	}
}
