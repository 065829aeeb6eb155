package propose

import (
	"encoding/json"
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
)

// Black, white and the six corners of the display.
func TestShadesOfTheCorners(t *testing.T) {
	for corner := range 8 {
		c := colour.RGB{R: uint8(255 * (corner >> 2)), G: uint8(255 * (corner >> 1 & 1)), B: uint8(255 * (corner & 1))}
		base := analysis.SpotOf(c)
		s := Shade(base, DefaultOptions())
		for i := range s.Ramp {
			checkShadow(t, base, s.Ramp[i], float64(i+1))
			checkStep(t, base, s.BlackRamp[i], float64(i+1))
			checkStep(t, base, s.Lines[i].Step, float64(i+3))
		}
		for i := range s.Lights {
			checkStep(t, base, s.Lights[i], -float64(i+1))
		}
		p := promise{ByLightness, base.Lightness}
		for i := range s.Accents {
			checkAccent(t, base, s.Accents[i], p)
			checkAccent(t, base, s.FullAccents[i], p)
			if (c == colour.RGB{} || c == colour.RGB{R: 255, G: 255, B: 255}) && s.FullAccents[i].Spot.Colour != c {
				t.Errorf("%s has the accent %s", c.Hex(), s.FullAccents[i].Spot.Colour.Hex())
			}
		}
		if c == (colour.RGB{}) && (s.Ramp[0].Spot != nil || s.BlackRamp[0].Spot != nil || s.Lines[0].Spot != nil) {
			t.Error("something is darker than black")
		}
		if c == (colour.RGB{R: 255, G: 255, B: 255}) && s.Lights[0].Spot != nil {
			t.Error("something is lighter than white")
		}
	}
}

func drawOptions(t *rapid.T) Options {
	anything := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-1, 2), rapid.SampledFrom([]float64{0, 1, math.NaN(), math.Inf(1)}))
	return Options{
		ShadowHue:    rapid.OneOf(rapid.Float64Range(0, 360), rapid.Float64()).Draw(t, "shadow hue"),
		Turn:         anything.Draw(t, "turn"),
		Gain:         anything.Draw(t, "gain"),
		AccentChroma: anything.Draw(t, "accent chroma"),
		EqualBy:      rapid.SampledFrom([]EqualBy{"", ByLightness, ByLayerGrey, BySeenLightness, "other"}).Draw(t, "equal by"),
	}
}

// Whatever the settings, the promises hold, everything can be written as JSON, and the same
// colours come again.
func TestShadesKeepTheirPromisesWithAnySettings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, o := analysis.SpotOf(analysistest.DrawColour(t, "base")), drawOptions(t)
		s := Shade(base, o)
		for i := range s.Ramp {
			checkShadow(t, base, s.Ramp[i], float64(i+1))
			checkStep(t, base, s.BlackRamp[i], float64(i+1))
			checkStep(t, base, s.Lines[i].Step, float64(i+3))
		}
		for i := range s.Lights {
			checkStep(t, base, s.Lights[i], -float64(i+1))
		}
		p := promiseOf(base, s.Options.EqualBy)
		for i := range s.Accents {
			checkAccent(t, base, s.Accents[i], p)
			checkAccent(t, base, s.FullAccents[i], p)
		}
		first, err := json.Marshal(s)
		if err != nil {
			t.Fatal(err)
		}
		if again, _ := json.Marshal(Shade(base, o)); string(again) != string(first) {
			t.Fatalf("%s\n%s", first, again)
		}
	})
}

// A spot of a picture is a mean in linear light, not an 8-bit colour: its own lightness
// counts, not that of its rounded colour.
func TestShadeOfAMean(t *testing.T) {
	base := analysis.SpotOfLight(0.4001, 0.3003, 0.2002)
	s := Shade(base, DefaultOptions())
	for i := range s.Ramp {
		checkShadow(t, base, s.Ramp[i], float64(i+1))
	}
	for i := range s.Accents {
		checkAccent(t, base, s.Accents[i], promise{ByLightness, base.Lightness})
	}
}
