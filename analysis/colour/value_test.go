package colour

import (
	"math"
	"testing"

	"app.tonedesk/analysis/internal/testkit"
)

// Source: munsell_value_to_y.csv (D1535): the grey of each step, and how far L* is from ten
// times the step.
func TestStepsByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "munsell_value_to_y.csv")
	for _, row := range tab.Rows {
		v := tab.Number(row, "V")
		l := Lightness(YOfValue(v))
		tab.Check(row, "diff10V", l-10*v, 1e-5)
		tab.Check(row, "srgb_grey", 255*EncodedOf(YOfValue(v)), 1e-3)
		tab.Check(row, "V", Value(tab.Number(row, "Lstar")), 1e-6)
		if got := GreyOf(l); math.Abs(float64(got)-tab.Number(row, "srgb_grey")) > 0.51 {
			t.Errorf("step %g: grey %d, want the nearest to %s", v, got, tab.Cell(row, "srgb_grey"))
		}
		if got := FromWhite(v); got != 10-v {
			t.Errorf("step %g is %g from white", v, got)
		}
	}
}

// The step by halving an interval on the polynomial as D1535 prints it, which needs no slope
// and no first guess.
func TestValueByHalving(t *testing.T) {
	percent := func(v float64) float64 {
		return 1.1914*v - 0.22533*v*v + 0.23352*math.Pow(v, 3) - 0.020484*math.Pow(v, 4) + 0.00081939*math.Pow(v, 5)
	}
	for i := range 2001 {
		y := math.Pow(float64(i)/2000, 3) // closer together in the darks
		low, high := 0.0, 10.0
		for range 60 {
			if middle := (low + high) / 2; percent(middle) < y*percent(10) {
				low = middle
			} else {
				high = middle
			}
		}
		if got := ValueOfY(y); !(math.Abs(got-low) <= 1e-9) {
			t.Errorf("luminance %g is step %.10g, by halving %.10g", y, got, low)
		}
	}
}

// What lies outside of a formula's range counts as its nearer end, and no number as 0.
func TestFormulasOutsideTheirRange(t *testing.T) {
	tests := []struct {
		source string
		f      func(float64) float64
		white  float64 // what white is given as
		want   float64 // what it becomes
	}{
		{"CIE15, lightness", Lightness, 1, 100},
		{"CIE15, luminance", LuminanceOf, 100, 1},
		{"D1535, luminance of a step", YOfValue, 10, 1},
		{"D1535, step of a luminance", ValueOfY, 1, 10},
		{"D1535, step of a lightness", Value, 100, 10},
		{"SRGB, encoded", EncodedOf, 1, 1},
		{"SRGB, code", func(y float64) float64 { return float64(Encode(y)) }, 1, 255},
		{"SRGB and CIE15, grey", func(l float64) float64 { return float64(GreyOf(l)) }, 100, 255},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			for _, in := range []float64{0, math.Copysign(0, -1), -1e-300, -7, math.Inf(-1), math.NaN()} {
				if got := tt.f(in); got != 0 {
					t.Errorf("%g becomes %g, want 0", in, got)
				}
			}
			for _, in := range []float64{tt.white, tt.white + 1e-9, 3 * tt.white, math.MaxFloat64, math.Inf(1)} {
				if got := tt.f(in); !(math.Abs(got-tt.want) <= 1e-9 && got <= tt.want) {
					t.Errorf("%g becomes %.17g, want %g", in, got, tt.want)
				}
			}
		})
	}
}
