package remember

import (
	"image"
	"math"
	"testing"
)

// A picture is enlarged as a whole if its sides are, to the rounding of a pixel. By hand.
func TestScaleOf(t *testing.T) {
	for _, tt := range []struct {
		what     string
		was, now image.Point
		scale    float64
		whole    bool
	}{
		{"doubled", image.Pt(400, 300), image.Pt(800, 600), 2, true},
		{"halved", image.Pt(801, 600), image.Pt(401, 300), 0.5, true}, // 400.5 is rounded up
		{"to a width, the height rounded", image.Pt(1920, 1081), image.Pt(1000, 563), 563.0 / 1081, true},
		{"cut below", image.Pt(400, 300), image.Pt(400, 290), 290.0 / 300, false},
		{"on a wider paper", image.Pt(400, 300), image.Pt(500, 300), 1, false},
		{"turned", image.Pt(400, 300), image.Pt(300, 400), 0.75, false},
	} {
		if scale, whole := scaleOf(tt.was, tt.now); math.Abs(scale-tt.scale) > 1e-9 || whole != tt.whole {
			t.Errorf("%s: %g, %v, want %g, %v", tt.what, scale, whole, tt.scale, tt.whole)
		}
	}
}
