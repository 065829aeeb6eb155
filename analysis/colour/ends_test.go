package colour

import (
	"math"
	"testing"
)

// The pieces of SRGB meet at 0.04045, the hue stays below 360, odd input is cut.
func TestFormulaEnds(t *testing.T) {
	tests := []struct {
		source         string
		got, want, tol float64
	}{
		{"SRGB, 0.04 is on the straight piece", LinearOf(0.04), 0.04 / 12.92, 1e-17},
		{"SRGB, 0.041 is on the power", LinearOf(0.041), math.Pow(0.096/1.055, 2.4), 1e-17},
		{"SRGB, 0.0031 is on the straight piece", EncodedOf(0.0031), 12.92 * 0.0031, 1e-17},
		{"SRGB, white", LinearOf(1), 1, 1e-15}, {"SRGB, white back", EncodedOf(1), 1, 1e-15},
		{"code of too little light", float64(Encode(-1)), 0, 0}, {"of too much", float64(Encode(3)), 255, 0},
		{"of none known", float64(Encode(math.NaN())), 0, 0},
		{"CIE15, the pieces meet at (6/29)³", Lightness(216.0 / 24389), 8, 1e-12},
		{"CIE15, and back", LuminanceOf(8), 216.0 / 24389, 1e-17},
		{"colour 0.4.6, lightness_CIE1976, worked example", Lightness(0.1219722535), 41.5278758, 1e-7},
		{"CIE15, white", Lightness(1), 100, 0}, {"and back", LuminanceOf(100), 1, 0},
		{"light below none", Lightness(-1), 0, 0}, {"beyond white", Lightness(2), 100, 0}, {"none known", Lightness(math.NaN()), 0, 0},
		{"lightness below none", LuminanceOf(-1), 0, 0}, {"beyond white", LuminanceOf(101), 1, 0}, {"none known", LuminanceOf(math.NaN()), 0, 0},
		{"grey of lightness below none", float64(GreyOf(-5)), 0, 0}, {"beyond white", float64(GreyOf(105)), 255, 0},
		{"hue a hair below 0", Lab{50, 1, -1e-20}.Hue(), 0, 0},
		{"hue below the axis", Lab{50, 0, -1}.Hue(), 270, 1e-12},
	}
	for _, tt := range tests {
		if !(math.Abs(tt.got-tt.want) <= tt.tol) {
			t.Errorf("%s: %.17g, want %.17g", tt.source, tt.got, tt.want)
		}
	}
}
