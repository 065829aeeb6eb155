package views

import (
	"math"
	"math/rand/v2"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// The quick values are those of D1535 within 0.01 tones: a thousandth for the whole number.
func TestValuesOf(t *testing.T) {
	rng := rand.New(rand.NewPCG(51, 52))
	worst := 0.0
	got := make([]int16, 1)
	for i := range 100000 {
		linear := []uint16{uint16(rng.Uint32()), uint16(rng.Uint32()), uint16(rng.Uint32())}
		for c := range linear {
			linear[c] >>= i % 12
		}
		valuesOf(got, linear)
		y := colour.Luminance(float64(linear[0])/fixed.LinearWhite, float64(linear[1])/fixed.LinearWhite, float64(linear[2])/fixed.LinearWhite)
		worst = max(worst, math.Abs(float64(got[0])/valueUnit-colour.ValueOfY(y)))
	}
	if worst > 0.01 {
		t.Errorf("off by %g", worst)
	}
}

// halvesOf is a picture of two greys that meet at a straight edge through its middle.
func halvesOf(a, b uint8, lighter func(x, y int) bool) analysis.Pixels {
	const side = 21
	p := analysis.Pixels{Pix: make([]byte, 4*side*side), Stride: 4 * side, Width: side, Height: side}
	for i := range side * side {
		grey := a
		if lighter(i%side, i/side) {
			grey = b
		}
		analysistest.Set(p, i%side, i/side, colour.RGB{R: grey, G: grey, B: grey}, 255)
	}
	return p
}

// A sharp upright or level edge shows its tones on the pixels along it and nothing further
// off; a slanting one shows them within a tenth (by hand 1.06: Sobel's weights are not quite round).
func TestEdgesView(t *testing.T) {
	grey := func(value float64) uint8 { return colour.GreyOf(colour.Lightness(colour.YOfValue(value))) }
	value := func(grey uint8) float64 {
		return colour.Value(analysis.SpotOf(colour.RGB{R: grey, G: grey, B: grey}).Lightness)
	}
	for _, pair := range [][2]float64{{3, 3.5}, {3, 4}, {6, 4}, {1, 4}, {2, 8}, {0, 10}} {
		a, b := grey(pair[0]), grey(pair[1])
		want := min(10, edgeGain*math.Abs(value(a)-value(b)))
		for name, edge := range map[string]func(x, y int) bool{
			"upright": func(x, y int) bool { return x > 10 },
			"level":   func(x, y int) bool { return y > 10 },
			"slanted": func(x, y int) bool { return x+y > 20 },
		} {
			got := paintOf(t, halvesOf(a, b, edge), "edges", Look{})
			most, shown := 0.0, 0
			for i := 0; i < len(got); i += 4 {
				if got[i] > 0 {
					shown++
				}
				if x, y := i/4%21, i/4/21; x%20 > 0 && y%20 > 0 { // along the frame pixels are repeated
					most = max(most, value(got[i]))
				}
			}
			tolerance := 0.06 // half an 8-bit grey, and the values' hundredth twice
			if name == "slanted" {
				tolerance += 0.1 * want
			}
			if !(math.Abs(most-want) <= tolerance) {
				t.Errorf("%s edge from value %g to %g: shown as value %g, want %g", name, pair[0], pair[1], most, want)
			}
			if name != "slanted" && shown != 2*21 {
				t.Errorf("%s edge: %d pixels show it, want the two along it", name, shown)
			}
		}
	}
	for i, g := range paintOf(t, halvesOf(90, 90, func(x, y int) bool { return x > y }), "edges", Look{}) {
		if g != 0 && i%4 != 3 {
			t.Fatal("a flat picture has an edge")
		}
	}
}
