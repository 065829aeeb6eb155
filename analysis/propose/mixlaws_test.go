package propose

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
)

// drawBase draws a colour of any kind: of all codes, or at the gamut's edge.
func drawBase(t *rapid.T) analysis.Spot {
	c := analysistest.DrawColour(t, "base")
	switch rapid.IntRange(0, 4).Draw(t, "edge") {
	case 0:
		c.R = 0
	case 1:
		c.B = 0
	case 2:
		c.G = 255
	}
	return analysis.SpotOf(c)
}

// eachShadow calls do with the shadows of drawn colours, in both lights and with any settings.
func eachShadow(t *testing.T, do func(t *rapid.T, base analysis.Spot, step Step)) {
	t.Helper()
	rapid.Check(t, func(t *rapid.T) {
		o := inLight(rapid.SampledFrom(bothLights).Draw(t, "light"))
		if rapid.Bool().Draw(t, "free") {
			o = drawOptions(t)
		}
		base := drawBase(t)
		for _, step := range Shade(base, o).Ramp {
			if step.Spot != nil {
				do(t, base, step)
			}
		}
	})
}

// Our choice: a shadow has at most 1.15 times its base's Oklch chroma, as made and as shown,
// whatever the settings. Only what counts as neutral, C*ab under 8, gains a tint, of 0.015 of
// the lightness a tone.
func TestShadowsStayAsMutedAsTheirBase(t *testing.T) {
	eachShadow(t, func(t *rapid.T, base analysis.Spot, step Step) {
		most := 1.15*base.Oklab.Chroma() + 1e-9
		if base.Chroma < 8 {
			most += 0.015 * step.Tones * base.Oklab.L
		}
		if step.Spot.Oklab.Chroma() > most || step.Made.Chroma() > most {
			t.Fatalf("%s: %s has chroma %.4f, made with %.4f, at most %.4f", base.Colour.Hex(), step.Spot.Colour.Hex(),
				step.Spot.Oklab.Chroma(), step.Made.Chroma(), most)
		}
	})
}

// edgeChroma returns the chroma at the gamut's edge, at a colour's Oklch lightness and hue.
func edgeChroma(c colour.Oklab) float64 {
	o := c.Oklch()
	return intoGamut(colour.Oklch{L: o.L, C: 0.5, H: o.H}.Oklab()).Chroma()
}

// Our choice: a shadow's chroma is at least 2 % below that at the gamut's edge, or as far as
// its base's, where that lies nearer.
func TestShadowsStayInsideTheGamut(t *testing.T) {
	eachShadow(t, func(t *rapid.T, base analysis.Spot, step Step) {
		checkMargin(t, base, step)
	})
	for _, light := range bothLights {
		eachBase(func(base analysis.Spot) {
			for _, step := range Shade(base, inLight(light)).Ramp {
				if step.Spot != nil {
					checkMargin(t, base, step)
				}
			}
		})
	}
}

// besideBlue reports whether a colour's hue is one where the gamut is a blade.
func besideBlue(c colour.Oklab) bool { return math.Abs(c.Hue()-264.13) < 0.1 }

func checkMargin(t testkit.Fataler, base analysis.Spot, step Step) {
	t.Helper()
	const slack = 1e-6
	if besideBlue(base.Oklab) { // how far inside it is, is ambiguous
		return
	}
	margin := func(c colour.Oklab) float64 { return 1 - c.Chroma()/edgeChroma(c) }
	least := 0.02
	if base.Oklab.L < 1 {
		least = min(least, margin(base.Oklab))
	}
	for _, c := range []colour.Oklab{step.Made, step.Spot.Oklab} {
		if besideBlue(c) || c.Chroma() < 1e-4 {
			continue
		}
		if got := margin(c); got < least-slack {
			t.Fatalf("%s: %s at %g tones is %.4f inside, want %.4f", base.Colour.Hex(), step.Spot.Colour.Hex(), step.Tones, got, least)
		}
	}
}

// Our choice: no channel of a shadow is at 0 but where its base's is.
func TestShadowsReachNoNewZero(t *testing.T) {
	check := func(t testkit.Fataler, base analysis.Spot, step Step) {
		t.Helper()
		p, q := base.Colour, step.Spot.Colour
		if p.R > 0 && q.R == 0 || p.G > 0 && q.G == 0 || p.B > 0 && q.B == 0 {
			t.Fatalf("%s: %s at %g tones", p.Hex(), q.Hex(), step.Tones)
		}
	}
	eachShadow(t, func(t *rapid.T, base analysis.Spot, step Step) { check(t, base, step) })
	for _, light := range bothLights {
		eachBase(func(base analysis.Spot) {
			for _, step := range Shade(base, inLight(light)).Ramp {
				if step.Spot != nil {
					check(t, base, step)
				}
			}
		})
	}
}

// Our choice: each tone turns the hue on, by no more than the tone before, and never past the
// shadow's hue.
func TestHueShiftTapers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hue, shadow := rapid.Float64Range(0, 359.999).Draw(t, "hue"), rapid.Float64Range(0, 359.999).Draw(t, "shadow")
		turn := rapid.Float64Range(0, 1).Draw(t, "turn")
		way, last, before := wayToShadow(hue, shadow), 0.0, math.Inf(1)
		for tones := 1.0; tones <= 5; tones++ {
			shift := shadowShift(hue, shadow, turn, tones)
			further := math.Abs(shift) - last
			if shift*way < 0 || math.Abs(shift) > math.Abs(way)+1e-9 || further < -1e-9 || further > before+1e-9 {
				t.Fatalf("hue %g to %g by %g: %g at %g tones, %g more after %g", hue, shadow, turn, shift, tones, further, before)
			}
			last, before = math.Abs(shift), further
		}
	})
}

// Common practice, no source: red, green and teal keep their name for two tones; here all
// hues that have these names in CSS, of cyan those up to 210 degrees (our choice).
func TestHueShiftKeepsNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hue := rapid.OneOf(rapid.Float64Range(0, 49.999), rapid.Float64Range(126, 210), rapid.Float64Range(359, 359.999)).Draw(t, "hue")
		name := colour.HueName(hue)
		for _, light := range bothLights {
			for tones := 1.0; tones <= 2; tones++ {
				got := colour.HueName(roundTheCircle(hue + shadowShift(hue, light, DefaultTurn, tones)))
				if got != name {
					t.Fatalf("%s of hue %g becomes %s at %g tones, shadow's hue %g", name, hue, got, tones, light)
				}
			}
		}
	})
}
