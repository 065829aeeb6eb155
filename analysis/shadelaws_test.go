package analysis

import (
	"encoding/json"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Black, white and the six corners of the display.
func TestShadesOfTheCorners(t *testing.T) {
	for corner := range 8 {
		c := RGB{uint8(255 * (corner >> 2)), uint8(255 * (corner >> 1 & 1)), uint8(255 * (corner & 1))}
		base := SpotOf(c)
		s := Shade(base, DefaultShadeOptions())
		for i := range s.Ramp {
			checkStep(t, base, s.Ramp[i], float64(i+1))
			checkStep(t, base, s.BlackRamp[i], float64(i+1))
			checkStep(t, base, s.Lines[i].Step, float64(i+3))
		}
		for i := range s.Lights {
			checkStep(t, base, s.Lights[i], -float64(i+1))
		}
		p := promise{ByLightness, base.Lightness}
		for i := range s.Accents {
			checkAccent(t, base, s.Accents[i], p)
			checkAccent(t, base, s.EdgeAccents[i], p)
			if (c == RGB{} || c == RGB{255, 255, 255}) && s.EdgeAccents[i].Spot.Colour != c {
				t.Errorf("%s has the accent %s", c.Hex(), s.EdgeAccents[i].Spot.Colour.Hex())
			}
		}
		if c == (RGB{}) && (s.Ramp[0].Spot != nil || s.BlackRamp[0].Spot != nil || s.Lines[0].Spot != nil) {
			t.Error("something is darker than black")
		}
		if c == (RGB{255, 255, 255}) && s.Lights[0].Spot != nil {
			t.Error("something is lighter than white")
		}
	}
}

func drawOptions(t *rapid.T) ShadeOptions {
	anything := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-1, 2), rapid.SampledFrom([]float64{0, 1, math.NaN(), math.Inf(1)}))
	return ShadeOptions{
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
		base, o := SpotOf(drawColour(t, "base")), drawOptions(t)
		s := Shade(base, o)
		for i := range s.Ramp {
			checkStep(t, base, s.Ramp[i], float64(i+1))
			checkStep(t, base, s.BlackRamp[i], float64(i+1))
			checkStep(t, base, s.Lines[i].Step, float64(i+3))
		}
		for i := range s.Lights {
			checkStep(t, base, s.Lights[i], -float64(i+1))
		}
		p := promiseOf(base, s.Options.EqualBy)
		for i := range s.Accents {
			checkAccent(t, base, s.Accents[i], p)
			checkAccent(t, base, s.EdgeAccents[i], p)
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
	base := spotOfLight(0.4001, 0.3003, 0.2002)
	s := Shade(base, DefaultShadeOptions())
	for i := range s.Ramp {
		checkStep(t, base, s.Ramp[i], float64(i+1))
	}
	for i := range s.Accents {
		checkAccent(t, base, s.Accents[i], promise{ByLightness, base.Lightness})
	}
}

// The nearest better shadow satisfies the rules; where the chosen one does, there is none.
func TestJudgeShadowLaws(t *testing.T) {
	rules := DefaultFamilyRules()
	rapid.Check(t, func(t *rapid.T) {
		local, shadow := SpotOf(drawColour(t, "local")), SpotOf(drawColour(t, "shadow"))
		if shadow.Lightness > local.Lightness {
			local, shadow = shadow, local
		}
		j := JudgeShadow(local, shadow, rules, WarmLightShadow)
		if want := FamilyOf(local, shadow, rules); len(want.Verdict) != len(j.Family.Verdict) || want.Verdict[0] != j.Family.Verdict[0] {
			t.Fatalf("verdict %v, want %v", j.Family.Verdict, want.Verdict)
		}
		if j.Family.satisfies() {
			if j.Nearest != nil {
				t.Fatalf("%s reads, but %s is offered", shadow.Colour.Hex(), j.Nearest.Colour.Hex())
			}
			return
		}
		if j.Nearest == nil {
			if local.Value >= 4 { // there is room for a shadow that reads, and has chroma
				t.Fatalf("no better shadow for %s than %s", local.Colour.Hex(), shadow.Colour.Hex())
			}
			return
		}
		f := FamilyOf(local, *j.Nearest, rules)
		if len(f.Verdict) != 1 || f.Verdict[0] != Reads {
			t.Fatalf("%s for %s: %v", j.Nearest.Colour.Hex(), local.Colour.Hex(), f.Verdict)
		}
		if d := CIEDE2000(shadow.Lab, j.Nearest.Lab); math.Abs(d-*j.Distance) > 1e-9 {
			t.Fatalf("distance %g, want %g", *j.Distance, d)
		}
	})
}

// Beside every eighth code of the display, none that satisfies the rules is nearer than what
// the search found by more than half a CIEDE2000.
func TestJudgeShadowFindsTheNearest(t *testing.T) {
	rules := DefaultFamilyRules()
	for _, pair := range [][2]string{
		{"#e2ab85", "#d48885"}, {"#808080", "#606060"}, {"#e2ab85", "#553040"}, {"#a0c8f0", "#90b0e8"},
	} {
		local, shadow := colourSpot(t, pair[0]), colourSpot(t, pair[1])
		j := JudgeShadow(local, shadow, rules, WarmLightShadow)
		if j.Nearest == nil {
			t.Fatalf("%v: none found", pair)
		}
		gain := 0.0 // the chosen shadows here lose none
		least := math.Inf(1)
		for n := range 1 << 15 {
			c := spotOfCode(RGB{uint8(n >> 10 << 3), uint8(n >> 5 & 31 << 3), uint8(n & 31 << 3)})
			if d := CIEDE2000(shadow.Lab, c.Lab); d < least {
				f := FamilyOf(local, c, rules)
				if f.satisfies() && (f.SaturationGain == nil || *f.SaturationGain >= gain) {
					least = d
				}
			}
		}
		if *j.Distance > least+0.5 {
			t.Errorf("%v: %s is %.2f away, another only %.2f", pair, j.Nearest.Colour.Hex(), *j.Distance, least)
		}
	}
}

func BenchmarkJudgeShadow(b *testing.B) { // budget: 5 ms, the time of all proposals of a spot
	local, shadow := SpotOf(RGB{0xe2, 0xab, 0x85}), SpotOf(RGB{0xa2, 0x7a, 0x5e})
	for b.Loop() {
		JudgeShadow(local, shadow, DefaultFamilyRules(), WarmLightShadow)
	}
}
