package colour

import (
	"math"
	"testing"
)

// Chromaticities of the standard daylights, each at its temperature by today's second radiation
// constant.
func TestDaylightLocus(t *testing.T) {
	for _, tt := range []struct {
		source       string
		kelvin, x, y float64
	}{
		{"CIE15, D65 at 6504 K", 6504, 0.3127, 0.3290},
		{"CIE15, D50 at 5003 K", 5003, 0.3457, 0.3585},
		{"CIE15, D55 at 5503 K (from memory)", 5503, 0.3324, 0.3474},
		{"CIE15, D75 at 7504 K (from memory)", 7504, 0.2990, 0.3149},
	} {
		if x, y := daylightLocus(tt.kelvin); math.Abs(x-tt.x) > 2e-4 || math.Abs(y-tt.y) > 2e-4 {
			t.Errorf("%s: %.4f, %.4f, want %.4f, %.4f", tt.source, x, y, tt.x, tt.y)
		}
	}
}

// D65 is the display's white, within what the two ways to it differ; of a higher temperature there
// is more blue beside red, and the luminance is one.
func TestDaylightOf(t *testing.T) {
	r, g, b := DaylightOf(6504)
	if max(math.Abs(r-1), math.Abs(g-1), math.Abs(b-1)) > 0.005 {
		t.Errorf("D65 is %g, %g, %g", r, g, b)
	}
	last := 0.0
	for kelvin := 3900.0; kelvin <= 26000; kelvin += 50 {
		r, g, b := DaylightOf(kelvin)
		if y := Luminance(r, g, b); math.Abs(y-1) > 1e-9 || min(r, g, b) <= 0 || b/r < last {
			t.Errorf("%g K: %g, %g, %g, luminance %g", kelvin, r, g, b, y)
		}
		last = b / r
	}
	if r, _, _ := DaylightOf(math.NaN()); r != r {
		t.Error("NaN")
	}
}
