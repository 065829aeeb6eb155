package propose

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/internal/testkit"
)

// intoGamut returns the colour with as much of its chroma as the display can show at its
// Oklab lightness and hue, by what all proposals find the gamut's edge with.
//
// It reduces chroma only: the local clip of CSS4's method, which moves lightness and hue,
// is left out on purpose. Beside blue, from hue 264.05 to 264.21, the gamut is a thin blade
// that bends; there the part nearer to grey counts, so that neighbours stay neighbours.
func intoGamut(c colour.Oklab) colour.Oklab {
	if c.L <= 0 || c.L >= 1 {
		return colour.Oklab{L: max(0, min(c.L, 1))}
	}
	part := colour.Bisect(func(part float64) bool { return colour.Oklab{L: c.L, A: part * c.A, B: part * c.B}.InGamut() })
	return colour.Oklab{L: c.L, A: part * c.A, B: part * c.B}
}

// Source: gamut_map_oklch_to_srgb.csv, the ray tracing method of CSS4 (colorjs.io 0.7.1).
// It lets lightness and hue slip, by up to 1.3e-4 and 1.2 degrees; ours keeps both. So
// chroma agrees to 3e-4 and codes to 1 where the published result kept its hue within 0.2
// degrees, and elsewhere (two blues, 0.41 and 0.21 degrees off, which have up to 0.027 more
// chroma for it) ours has no more.
func TestGamutByRayTracing(t *testing.T) {
	tab := testkit.ReadTable(t, "gamut_map_oklch_to_srgb.csv")
	compared := 0
	for _, row := range tab.Rows {
		asked := colour.Oklch{L: tab.Number(row, "L"), C: tab.Number(row, "C"), H: tab.Number(row, "h")}
		got := intoGamut(asked.Oklab())
		tab.Check(row, "ray_okL", got.L, 1.3e-4)
		if tab.Cell(row, "ray_okh") == "" { // white and black have no hue
			tab.Check(row, "ray_okC", got.Chroma(), 0)
			continue
		}
		slip := math.Abs(families.TurnBetween(asked.H, tab.Number(row, "ray_okh")))
		if slip > 0.2 {
			if more := got.Chroma() - tab.Number(row, "ray_okC"); more > 0 || more < -0.0275 {
				t.Errorf("%v: chroma %g above the published one", row[:3], more)
			}
			continue
		}
		compared++
		tab.Check(row, "ray_okC", got.Chroma(), 3e-4)
		r, g, b := got.Light()
		want, err := colour.Parse(tab.Cell(row, "ray_hex"))
		if err != nil {
			t.Fatal(err)
		}
		if code := (colour.RGB{R: colour.Encode(r), G: colour.Encode(g), B: colour.Encode(b)}); codesApart(code, want) > 1 {
			t.Errorf("%v: %s, want %s within 1", row[:3], code.Hex(), want.Hex())
		}
	}
	if compared != 20 {
		t.Errorf("%d rows compared, want 20 of the 24", compared)
	}
}

// Source: gamut_map_oklch_to_srgb.csv, the method of CSS4 with its local clip (colorjs.io
// 0.7.1, css): the clip moves lightness by up to 0.018 and hue by up to 10 degrees, and buys
// chroma for it, as the notes of the published values say. Ours stays within deltaEOK 0.02
// of the clipped colour less what the clip moved.
func TestGamutBesideTheMethodWithLocalClip(t *testing.T) {
	tab := testkit.ReadTable(t, "gamut_map_oklch_to_srgb.csv")
	moved := 0.0
	for _, row := range tab.Rows {
		asked := colour.Oklch{L: tab.Number(row, "L"), C: tab.Number(row, "C"), H: tab.Number(row, "h")}
		got := intoGamut(asked.Oklab())
		tab.Check(row, "css_okL", got.L, 0.0185)
		moved = max(moved, math.Abs(got.L-tab.Number(row, "css_okL")))
		if tab.Cell(row, "in_gamut") == "yes" { // nothing to map: both leave it
			tab.Check(row, "css_okC", got.Chroma(), 1e-6)
			tab.Check(row, "css_okh", got.Hue(), 1e-3)
		}
		if more := got.Chroma() - tab.Number(row, "css_okC"); more > 1.7e-3 {
			t.Errorf("%v: %g more chroma than after the clip", row[:3], more)
		}
	}
	if moved < 0.01 {
		t.Errorf("the clip moved lightness by no more than %g: these are other values", moved)
	}
}

// codesApart returns the greatest difference between two colours' codes.
func codesApart(p, q colour.RGB) int {
	d := func(a, b uint8) int { return max(int(a)-int(b), int(b)-int(a)) }
	return max(d(p.R, q.R), d(p.G, q.G), d(p.B, q.B))
}

// Lightness and hue stay, chroma never rises, the result is in the gamut, and no more chroma
// is: a thousandth more, and anything beyond it, lies outside.
func TestGamutLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		asked := colour.Oklch{
			L: rapid.Float64Range(0.001, 0.999).Draw(t, "L"),
			C: rapid.Float64Range(0, 0.5).Draw(t, "C"),
			H: rapid.Float64Range(0, 360).Draw(t, "h"),
		}
		got := intoGamut(asked.Oklab())
		switch {
		case !got.InGamut():
			t.Fatalf("%v: %v lies outside", asked, got)
		case got.L != asked.L || got.Chroma() > asked.C+1e-12:
			t.Fatalf("%v becomes %v", asked, got.Oklch())
		case got.Chroma() > 1e-6 && math.Abs(families.TurnBetween(asked.H, got.Hue())) > 1e-6:
			t.Fatalf("%v turns by %g", asked, families.TurnBetween(asked.H, got.Hue()))
		}
		if math.Abs(asked.H-264.13) < 0.1 { // beside blue, where the gamut is a blade
			return
		}
		for more := got.Chroma() + 0.001; more < asked.C; more += 0.002 {
			if c := (colour.Oklch{L: asked.L, C: more, H: asked.H}); c.Oklab().InGamut() {
				t.Fatalf("%v becomes %v though %v can be shown", asked, got.Oklch(), c)
			}
		}
	})
}

// A colour made to keep a promise keeps it exactly, in the gamut, with its hue; the 8-bit
// colour keeps it within its limits.
func TestPromisesAreKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		by := rapid.SampledFrom([]EqualBy{ByLightness, ByLayerGrey, BySeenLightness}).Draw(t, "by")
		p := promiseOf(analysis.SpotOf(analysistest.DrawColour(t, "base")), by)
		if rapid.IntRange(0, 3).Draw(t, "free") == 0 && by == ByLightness {
			p.want = rapid.Float64Range(0, 100).Draw(t, "want")
		}
		hue, chroma := rapid.Float64Range(0, 360).Draw(t, "hue"), rapid.Float64Range(0, 0.4).Draw(t, "chroma")
		c, whole, ok := fitChroma(hue, chroma, p)
		if !ok {
			if by != BySeenLightness || p.want <= 100-0.2 {
				t.Fatalf("no room for %v", p)
			}
			return
		}
		aboveWhite := by == BySeenLightness && p.want > 99.9 // what looks so light has more chroma
		r, g, b := c.Light()
		exact := 1e-5
		if by == BySeenLightness {
			exact = 0.01 // the formula has steps where its terms begin, so that it can't always be met
		}
		switch {
		case !c.InGamut():
			t.Fatalf("%v at hue %g: %v lies outside", p, hue, c)
		case !(math.Abs(p.of(r, g, b)-p.want) <= exact):
			t.Fatalf("%v: made as %.9g", p, p.of(r, g, b))
		case c.Chroma() > 1e-4 && math.Abs(families.TurnBetween(hue, c.Hue())) > 1e-5:
			t.Fatalf("hue %g became %g", hue, c.Hue())
		case whole && math.Abs(c.Chroma()-chroma) > 1e-6, c.Chroma() > chroma+1e-6 && !aboveWhite:
			t.Fatalf("chroma %g, whole %v, asked %g", c.Chroma(), whole, chroma)
		}
		code, made := settle(c, p)
		checkCode(t, code, made, p)
		if made.Chroma() < 0.6*c.Chroma()-1e-3 {
			t.Fatalf("%v settled at %v", c.Oklch(), made.Oklch())
		}
	})
}

// checkCode fails unless an 8-bit colour keeps what was promised of the colour as made.
func checkCode(t testkit.Fataler, code colour.RGB, made colour.Oklab, p promise) {
	t.Helper()
	got := analysis.SpotOf(code)
	lab := colour.LabOf(made.Light())
	if off := math.Hypot(got.Lab.A-lab.A, got.Lab.B-lab.B); !(off <= 1.0) {
		t.Fatalf("%s is %.3f in a*b* from the colour as made, %v", code.Hex(), off, made.Oklch())
	}
	if p.by == ByLayerGrey {
		if math.Round(got.LayerGrey) != p.want {
			t.Fatalf("%s has layer grey %g, want %g", code.Hex(), got.LayerGrey, p.want)
		}
		return
	}
	kept := got.Lightness
	if p.by == BySeenLightness {
		kept = got.SeenLightness
	}
	if !(math.Abs(kept-p.want) <= 0.2) {
		t.Fatalf("%s has %s %.3f, want %.3f (made as %v)", code.Hex(), p.by, kept, p.want, made.Oklch())
	}
}
