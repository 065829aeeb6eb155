package analysis

import (
	"math"
	"testing"

	"app.tonedesk/analysis/colour"
)

// By hand: L* 7.84 and 97.25 lie beyond 8 and 97, L* 8.24 and 96.86 don't.
func TestLimitShares(t *testing.T) {
	var h [256]int
	h[0], h[20], h[21], h[247], h[248], h[255] = 1, 2, 4, 8, 16, 32
	tests := []struct {
		name        string
		limits      Limits
		dark, light float64
	}{
		{"the defaults", DefaultLimits, 3. / 63, 48. / 63},
		{"nothing is too dark or too light", Limits{0, 100}, 0, 0},
		{"on a bin: it is not beyond", Limits{colour.LightnessOfBins(21, 1), colour.LightnessOfBins(247, 1)}, 3. / 63, 48. / 63},
		{"just past a bin", Limits{colour.LightnessOfBins(21, 1) + 1e-9, colour.LightnessOfBins(247, 1) - 1e-9}, 7. / 63, 56. / 63},
		{"far outside", Limits{-3, 200}, 0, 0},
		{"everything is beyond both", Limits{101, -1}, 1, 1},
		{"not set", Limits{math.NaN(), math.NaN()}, 0, 0},
	}
	r := splitOf(h, 0)
	for _, tt := range tests {
		if dark, light := r.Limits(tt.limits); dark != tt.dark || light != tt.light {
			t.Errorf("%s: %g and %g, want %g and %g", tt.name, dark, light, tt.dark, tt.light)
		}
	}
	if dark, light := splitOf([256]int{}, 0).Limits(DefaultLimits); !math.IsNaN(dark) || !math.IsNaN(light) {
		t.Errorf("of nothing: %g and %g", dark, light)
	}
}
