package light

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/propose"
)

// The shadow and the light that lie as far from the base as the picture's are the picture's, but for
// rounding to 8 bits; others keep their tones.
func TestShadeInALight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		channel := rapid.Float64Range(0.05, 0.9)
		r := Ratio{channel.Draw(t, "red"), channel.Draw(t, "green"), channel.Draw(t, "blue")}
		base := analysis.SpotOf(colour.RGB{R: rapid.Uint8Range(60, 255).Draw(t, "r"), G: rapid.Uint8Range(60, 255).Draw(t, "g"), B: rapid.Uint8Range(60, 255).Draw(t, "b")})
		shades := r.Shade(base, propose.DefaultOptions())
		for _, step := range slices.Concat(shades.Ramp[:], shades.Lights[:]) {
			if step.Spot == nil {
				continue
			}
			if got := base.Value - step.Spot.Value; math.Abs(got-step.Tones) > 0.06 { // 8 bits, at the darkest
				t.Fatalf("%s is %g tones below %s, want %g", step.Spot.Colour.Hex(), got, base.Colour.Hex(), step.Tones)
			}
		}
		down, up := r.Tones(base)
		if got := r.below(base, down); !sameRatio(got, r, 1e-6) {
			t.Fatalf("%g tones below, %+v is %+v", down, r, got)
		}
		if !hasOwn(shades.Ramp[:], down, r.Shadow(base)) || !hasOwn(shades.Lights[:], -up, r.Light(base)) {
			t.Fatalf("%g below %s or %g above it is not the light's own", down, base.Colour.Hex(), up)
		}
	})
}

// spotOf reads a colour of three codes.
func spotOf(r, g, b uint8) analysis.Spot { return analysis.SpotOf(colour.RGB{R: r, G: g, B: b}) }

// hasOwn reports whether steps have one of so many tones that is another's colour, or none since the
// base has no room for any.
func hasOwn(steps []propose.Step, tones float64, own propose.Step) bool {
	return tones == 0 || slices.ContainsFunc(steps, func(s propose.Step) bool {
		return s.Tones == tones && s.Spot != nil && colour.CIEDE2000(s.Spot.Lab, own.Spot.Lab) < 0.5 // a code's neighbour
	})
}

// The light of a shadow's step is the base again: up from the picture's own shadow lies the base, and
// down from the picture's own light.
func TestShadeThereAndBack(t *testing.T) {
	for _, base := range []analysis.Spot{spotOf(0xc0, 0xb0, 0xa0), spotOf(0xe2, 0xab, 0x85), spotOf(0x6a, 0x8a, 0x50), spotOf(0x80, 0x80, 0x80)} {
		hex := base.Colour.Hex()
		down, _ := bluish.Tones(base)
		_, up := bluish.Tones(*bluish.Shadow(base).Spot)
		if math.Abs(down-up) > 0.06 {
			t.Errorf("%s: the shadow lies %g tones down, and its light %g up", hex, down, up)
		}
		back := bluish.Light(*bluish.Shadow(base).Spot)
		if d := colour.CIEDE2000(back.Spot.Lab, base.Lab); d > 3 { // what a code's rounding becomes in the light
			t.Errorf("the light of the shadow of %s is %s", hex, back.Spot.Colour.Hex())
		}
	}
}

// More light than white is cut for the own light, of a black base there is none, and of what is
// asked for beyond white neither.
func TestShadeAtTheEnds(t *testing.T) {
	for _, tt := range []struct {
		base  analysis.Spot
		rooms [2]bool // of the lights
		note  propose.Note
	}{{spotOf(0, 0, 0), [2]bool{}, propose.NoRoom}, {spotOf(255, 255, 255), [2]bool{}, propose.NoRoom}, {spotOf(0xd8, 0xd8, 0xd8), [2]bool{true, false}, propose.AtEdge}} {
		s := bluish.Shade(tt.base, propose.DefaultOptions())
		for i, l := range s.Lights {
			if (l.Spot != nil) != tt.rooms[i] {
				t.Errorf("the %d. light of %s: %v", i+1, tt.base.Colour.Hex(), l.Spot)
			}
		}
		if got := s.Lights[0].Note; got != tt.note {
			t.Errorf("%s comes out as %q, want %q", tt.base.Colour.Hex(), got, tt.note)
		}
	}
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
