package fixed

import (
	"math"
	"math/rand/v2"
	"testing"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
)

// Source: srgb_to_lab_oklab.csv (SRGB, CIE15, CSS4), read the other way.
func TestLightOfLabByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "srgb_to_lab_oklab.csv")
	for _, row := range tab.Rows {
		r, g, b := colour.Lab{L: tab.Number(row, "L65"), A: tab.Number(row, "a65"), B: tab.Number(row, "b65")}.Light()
		tab.Check(row, "lin_r", r, 1e-7)
		tab.Check(row, "lin_g", g, 1e-7)
		tab.Check(row, "lin_b", b, 1e-7)
	}
}

// The quick a* and b* are those of CIE15 within 0.01, and 0 for every neutral.
func TestLabPixel(t *testing.T) {
	rng := rand.New(rand.NewPCG(41, 42))
	worst := 0.0
	for i := range 200000 {
		linear := []uint16{uint16(rng.Uint32()), uint16(rng.Uint32()), uint16(rng.Uint32())}
		if i%2 == 0 { // the dark, where the root is steep
			for c := range linear {
				linear[c] >>= 2 + rng.IntN(10)
			}
		}
		p := LabOf(linear)
		want := colour.LabOf(float64(linear[0])/LinearWhite, float64(linear[1])/LinearWhite, float64(linear[2])/LinearWhite)
		a, b := 500*float64(p.A)/LabUnit, 200*float64(p.B)/LabUnit
		worst = max(worst, math.Abs(a-want.A), math.Abs(b-want.B))
	}
	if worst > 0.01 {
		t.Errorf("off by %g", worst)
	}
	for v := range LinearWhite + 1 {
		if p := LabOf([]uint16{uint16(v), uint16(v), uint16(v)}); p != (Lab{}) {
			t.Fatalf("neutral light %d: %+v", v, p)
		}
	}
}
