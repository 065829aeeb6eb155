package overlay

import (
	"image"
	"testing"

	"app.tonedesk/gui/guitest"
)

// A ring lies round its place with its radius, also enlarged and flipped; one that is wanted is drawn in
// dashes and has its middle.
func TestRings(t *testing.T) {
	whole := image.Rect(200, 100, 280, 160)
	for name, tt := range map[string]struct {
		lay    Lay
		middle image.Point
		radius int
	}{
		"whole":    {Lay{Part: whole, Size: image.Pt(320, 240), Unit: 1}, image.Pt(80, 120), 32},
		"flipped":  {Lay{Part: whole, Size: image.Pt(320, 240), Unit: 1, Flipped: true}, image.Pt(240, 120), 32},
		"enlarged": {Lay{Part: image.Rect(200, 115, 240, 145), Size: image.Pt(320, 240), Unit: 1}, image.Pt(160, 120), 64},
	} {
		for _, wanted := range []bool{false, true} {
			img := Rings([]Ring{{X: 0.25, Y: 0.5, Radius: 0.1, Wanted: wanted}}, whole, tt.lay)
			guitest.AssertNeutral(t, img)
			box, _ := drawnIn(img)
			centre := box.Min.Add(box.Max).Div(2)
			if off := centre.Sub(tt.middle); max(off.X, off.Y, -off.X, -off.Y) > 2 || box.Dx() < 2*tt.radius || box.Dx() > 2*tt.radius+10 {
				t.Errorf("%s, wanted %v: drawn in %v", name, wanted, box)
			}
			if dot := img.RGBAAt(tt.middle.X, tt.middle.Y).A > 0; dot != wanted {
				t.Errorf("%s, wanted %v: its middle is drawn: %v", name, wanted, dot)
			}
		}
	}
	if box, _ := drawnIn(Rings(nil, whole, Lay{Part: whole, Size: image.Pt(80, 60), Unit: 1})); !box.Empty() {
		t.Errorf("drawn in %v", box)
	}
}
