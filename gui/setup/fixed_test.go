package setup

import (
	"image"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/movement"
)

// Whatever becomes of the picture and of the part that is watched, what is fixed stays as it is.
func TestFixedStays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spot := analysis.SpotOf(colour.RGB{R: 1, G: 2, B: 3})
		number := rapid.IntRange(-1000, 1000)
		at := image.Pt(number.Draw(t, "x"), number.Draw(t, "y"))
		fixed := Place{At: at, Fixed: &spot}
		s := Setup{}.Placed(0, fixed).Placed(1, Place{At: at})
		by := movement.Shift(float64(1+rapid.IntRange(0, 500).Draw(t, "by")), 3)
		moved := s.MovedBy(by, image.Point{})
		if moved.Places[0] != fixed || moved.Places[1] == s.Places[1] {
			t.Errorf("moved: %+v", moved.Places)
		}
		if lost := s.AllMoved(true); lost.Places[0] != fixed || !lost.Places[1].Moved || !lost.AnyMoved() {
			t.Errorf("lost: %+v", lost.Places)
		}
		if part := (image.Rectangle{Min: at.Add(image.Pt(1, 1)), Max: at.Add(image.Pt(9, 9))}); !fixed.In(part) || s.Places[1].In(part) {
			t.Error("a part of the source keeps what lies elsewhere, or leaves out what is fixed")
		}
	})
}
