package edges

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/lawtest"
)

// The distances that come first decide nothing: two colours, the one of the display, that carry an
// edge by the exact formulas pass them, even without the room that they leave for single cells.
func TestFirstDistancesDecideNothing(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	var carried [2]int
	for range lawtest.Times(300_000, 30_000_000) {
		o := Options{MostTones: between(rng, 0.1, 1), LeastCIEDE2000: between(rng, LeastColours, MostColours), LeastTones: between(rng, LeastAlone, MostAlone), MostColourOff: between(rng, LeastOff, MostOff)}
		p := colour.LabOf(rng.Float64(), rng.Float64(), rng.Float64())
		q := colour.Lab{L: p.L + 30*rng.Float64() - 15, A: p.A + 80*rng.Float64() - 40, B: p.B + 80*rng.Float64() - 40}
		if rng.IntN(2) == 0 { // near the limit of colour
			q.A, q.B = p.A+(q.A-p.A)/4, p.B+(q.B-p.B)/4
		}
		if q.L < 0 || q.L > 100 {
			continue
		}
		step, hue := math.Abs(q.L-p.L)*cellLab, math.Hypot(q.A-p.A, q.B-p.B)*cellLab
		if _, is := o.kindOf(byColour, p, q); is {
			if carried[0]++; step > cellLab*mostColourL*o.MostTones || hue < cellLab*o.leastColour() {
				t.Fatalf("%v and %v carry an edge by colour", p, q)
			}
		}
		if _, is := o.kindOf(byLightness, p, q); is {
			if carried[1]++; step < cellLab*leastLightL*o.LeastTones || hue > cellLab*mostLightHue*o.MostColourOff {
				t.Fatalf("%v and %v carry an edge by lightness", p, q)
			}
		}
	}
	if min(carried[0], carried[1]) < 1000 {
		t.Errorf("hardly any pair carries an edge: %v", carried)
	}
}

func between(rng *rand.Rand, from, to float64) float64 { return from + (to-from)*rng.Float64() }

// A cell has the L*a*b* of its light, within 0.02: half a step, and what whole numbers leave of the
// cube roots.
func TestCellOf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		linear := []uint16{rapid.Uint16().Draw(t, "red"), rapid.Uint16().Draw(t, "green"), rapid.Uint16().Draw(t, "blue")}
		got := cellOf(linear)
		want := colour.LabOf(float64(linear[0])/fixed.LinearWhite, float64(linear[1])/fixed.LinearWhite, float64(linear[2])/fixed.LinearWhite)
		if d := max(math.Abs(float64(got.part(0))/cellLab-want.L), math.Abs(float64(got.part(1)+lowest)/cellLab-want.A), math.Abs(float64(got.part(2)+lowest)/cellLab-want.B)); !(d <= 0.02) {
			t.Errorf("%v is %+v, want %v", linear, got, want)
		}
	})
}

// A side's cells, added up, keep out of each other's bits: so with any colour of the display, by
// steps of a fifteenth of the code.
func TestSumsFit(t *testing.T) {
	light := func(code int) uint16 { return uint16(math.Round(fixed.LinearWhite * colour.Linear(uint8(17*code)))) }
	for i := range 16 * 16 * 16 {
		c := cellOf([]uint16{light(i & 15), light(i >> 4 & 15), light(i >> 8)})
		lab := colour.LabOf(float64(light(i&15))/fixed.LinearWhite, float64(light(i>>4&15))/fixed.LinearWhite, float64(light(i>>8))/fixed.LinearWhite)
		sum := cell(sideCells) * c
		for k, want := range [3]float64{lab.L, lab.A - lowest/cellLab, lab.B - lowest/cellLab} {
			if got := float64(sum.part(k)) / cellLab / sideCells; sum.left() || math.Abs(got-want) > 0.02 {
				t.Fatalf("%v: part %d is %g, want %g", lab, k, got, want)
			}
		}
	}
}
