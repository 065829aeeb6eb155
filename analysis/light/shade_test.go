package light

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/propose"
)

// The shadow that lies as deep as the picture's is the picture's, but for rounding to 8 bits; others
// keep their tones, and are the mixture of light and shadow, or the shadow with less light.
func TestShadeInALight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		channel := rapid.Float64Range(0.05, 0.9)
		r := Ratio{channel.Draw(t, "red"), channel.Draw(t, "green"), channel.Draw(t, "blue")}
		base := analysis.SpotOf(colour.RGB{R: rapid.Uint8Range(60, 255).Draw(t, "r"), G: rapid.Uint8Range(60, 255).Draw(t, "g"), B: rapid.Uint8Range(60, 255).Draw(t, "b")})
		for _, step := range r.Shade(base, propose.DefaultOptions()).Ramp {
			if step.Spot == nil {
				continue
			}
			if got := base.Value - step.Spot.Value; math.Abs(got-step.Tones) > 0.06 { // 8 bits, at the darkest
				t.Fatalf("%s is %g tones below %s, want %g", step.Spot.Colour.Hex(), got, base.Colour.Hex(), step.Tones)
			}
		}
		whole := r.under(linear(base))
		depth := base.Value - reading(whole).Value
		if got := r.below(base, depth); !sameRatio(got, r, 1e-6) {
			t.Fatalf("%g tones below, %+v is %+v", depth, r, got)
		}
	})
}

// A grey in a bluish shadow gets blue, more of it the deeper, until the shadow is whole.
func TestShadeTakesTheLightsColour(t *testing.T) {
	base := analysis.SpotOf(colour.RGB{R: 130, G: 130, B: 130}) // whose shadow lies 2.5 tones below it
	ramp := bluish.Shade(base, propose.DefaultOptions()).Ramp
	part := func(i int) float64 { l := linear(*ramp[i].Spot); return l[2] / l[0] }
	if !(1.05 < part(0) && part(0) < part(1) && part(1) < part(2)) {
		t.Errorf("blue over red: %g, %g, %g", part(0), part(1), part(2))
	}
	if got, want := part(2), bluish.Blue/bluish.Red; got < want*0.9 || got > want*1.1 { // the whole shadow, 8 bits
		t.Errorf("three tones down %g, want the light's %g", got, want)
	}
}
