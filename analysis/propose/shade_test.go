package propose

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/internal/testkit"
	"app.tonedesk/analysis/lawtest"
)

// eachBase calls do with 576 base colours spread over sRGB, all corners among them, or 4,096.
func eachBase(do func(base analysis.Spot)) {
	step := lawtest.Times(3, 1)
	for r := 0; r < 16; r += step {
		for g := 0; g < 16; g += step {
			for b := range 16 {
				do(analysis.SpotOf(colour.RGB{R: uint8(17 * r), G: uint8(17 * g), B: uint8(17 * b)}))
			}
		}
	}
}

// checkStep fails unless a step is the colour so many tones away from its base that it says,
// and its 8-bit colour keeps that.
func checkStep(t testkit.Fataler, base analysis.Spot, step Step, tones float64) {
	t.Helper()
	value := base.Value - tones
	room := value >= 0 && value <= 10
	switch {
	case step.Tones != tones:
		t.Fatalf("%s: %g tones, want %g", base.Colour.Hex(), step.Tones, tones)
	case room != (step.Spot != nil), room == (step.Note == NoRoom):
		t.Fatalf("%s of value %.2f: %g tones darker: %+v", base.Colour.Hex(), base.Value, tones, step)
	case !room:
		return
	case !step.Made.InGamut():
		t.Fatalf("%s: %g tones: %v lies outside", base.Colour.Hex(), tones, step.Made)
	}
	p := promise{ByLightness, colour.Lightness(colour.YOfValue(value))}
	checkCode(t, step.Spot.Colour, step.Made, p)
	if r, g, b := step.Made.Light(); !(math.Abs(p.of(r, g, b)-p.want) < 1e-6) {
		t.Fatalf("%s: %g tones: made as L* %g, want %g", base.Colour.Hex(), tones, p.of(r, g, b), p.want)
	}
}

// checkShadow does so for a shadow, which has no room right above black either: no code but
// black is as dark as that. The next is 1 in all channels.
func checkShadow(t testkit.Fataler, base analysis.Spot, step Step, tones float64) {
	t.Helper()
	value := base.Value - tones
	next := analysis.SpotOf(colour.RGB{R: 1, G: 1, B: 1}).Lightness
	if value >= 0 && colour.Lightness(colour.YOfValue(value)) < next-promiseWithin && step.Spot == nil && step.Note == NoRoom {
		return
	}
	checkStep(t, base, step, tones)
}

// checkOrder fails unless the hues of the steps turn on and on in one direction, as made and
// as 8-bit colours.
func checkOrder(t testkit.Fataler, base analysis.Spot, steps []Step) {
	t.Helper()
	made, code, direction := base.Oklab.Hue(), base.Oklab.Hue(), 0.0
	for _, step := range steps {
		if step.Spot == nil || base.Chroma < 8 || step.Spot.Hue == nil { // counts in no order; a neutral has no hue
			return
		}
		turn := families.TurnBetween(made, step.Made.Hue())
		if turn*direction < -1e-6 {
			t.Fatalf("%s: the hue turns back by %g at %g tones", base.Colour.Hex(), turn, step.Tones)
		}
		if turn != 0 {
			direction = turn
		}
		if back := families.TurnBetween(code, step.Spot.Oklab.Hue()); back*direction < -1e-9 && math.Abs(turn) > 1e-6 {
			t.Fatalf("%s: rounding turns %s back by %g", base.Colour.Hex(), step.Spot.Colour.Hex(), back)
		}
		made, code = step.Made.Hue(), step.Spot.Oklab.Hue()
	}
}

// The promises of the ramp, over 4,096 base colours.
func TestRampKeepsItsPromises(t *testing.T) {
	eachBase(func(base analysis.Spot) {
		s := Shade(base, DefaultOptions())
		seen := map[colour.RGB]bool{base.Colour: true}
		darker := base.Lightness
		for i := range s.Ramp {
			checkShadow(t, base, s.Ramp[i], float64(i+1))
			checkStep(t, base, s.BlackRamp[i], float64(i+1))
			step := s.Ramp[i].Spot
			if step == nil {
				continue
			}
			if seen[step.Colour] || step.Lightness >= darker {
				t.Fatalf("%s: %s comes again or is not darker", base.Colour.Hex(), step.Colour.Hex())
			}
			seen[step.Colour], darker = true, step.Lightness
		}
		lighter := base.Lightness
		for i, light := range s.Lights {
			checkStep(t, base, light, -float64(i+1))
			if light.Spot == nil {
				continue
			}
			if seen[light.Spot.Colour] || light.Spot.Lightness <= lighter {
				t.Fatalf("%s: %s comes again or is not lighter", base.Colour.Hex(), light.Spot.Colour.Hex())
			}
			seen[light.Spot.Colour], lighter = true, light.Spot.Lightness
		}
		checkOrder(t, base, s.Ramp[:])
		checkOrder(t, base, s.Lights[:])
	})
}

// Straight toward black: the base's Oklch hue and saturation, as made.
func TestBlackRampKeepsHueAndSaturation(t *testing.T) {
	eachBase(func(base analysis.Spot) {
		for _, step := range Shade(base, DefaultOptions()).BlackRamp {
			if step.Spot == nil || step.Made.L == 0 {
				continue
			}
			if math.Abs(colour.Saturation(step.Made)-colour.Saturation(base.Oklab)) > 1e-6 ||
				base.Chroma > 1 && math.Abs(families.TurnBetween(base.Oklab.Hue(), step.Made.Hue())) > 1e-4 {
				t.Fatalf("%s: %v becomes %v", base.Colour.Hex(), base.Oklab.Oklch(), step.Made.Oklch())
			}
		}
	})
}

func TestAccentsKeepTheirPromises(t *testing.T) {
	for _, by := range []EqualBy{ByLightness, ByLayerGrey, BySeenLightness} {
		o := DefaultOptions()
		o.EqualBy = by
		skip := 0
		eachBase(func(base analysis.Spot) {
			if skip++; by != ByLightness && skip%16 != 0 {
				return
			}
			s := Shade(base, o)
			p := promiseOf(base, by)
			for i, a := range s.Accents {
				edge := s.FullAccents[i]
				if a.Hue != 15*float64(i) || edge.Hue != a.Hue {
					t.Fatalf("accent %d has hue %g", i, a.Hue)
				}
				checkAccent(t, base, a, p)
				checkAccent(t, base, edge, p)
				if a.Spot == nil {
					continue
				}
				if !edge.InGamut || edge.Made.Chroma() < a.Made.Chroma()-0.02 {
					t.Fatalf("%s: %v at the gamut's edge, %v before", base.Colour.Hex(), edge.Made.Oklch(), a.Made.Oklch())
				}
				if a.InGamut != (a.Note == AsMade) || a.InGamut && a.Made.Chroma() < 0.12-0.03 {
					t.Fatalf("%s: hue %g is in the gamut with chroma %g", base.Colour.Hex(), a.Hue, a.Made.Chroma())
				}
			}
			for _, a := range s.Suggested {
				checkAccent(t, base, a, p)
			}
		})
	}
}

func checkAccent(t testkit.Fataler, base analysis.Spot, a Accent, p promise) {
	t.Helper()
	if a.Spot == nil {
		if a.Note != NoRoom || a.InGamut || p.by != BySeenLightness || p.want < 100-0.2 {
			t.Fatalf("%s: no accent of hue %g", base.Colour.Hex(), a.Hue)
		}
		return
	}
	checkCode(t, a.Spot.Colour, a.Made, p)
	if c := a.Made.Chroma(); c > 1e-3 && math.Abs(families.TurnBetween(a.Hue, a.Made.Hue())) > 1e-4 {
		t.Fatalf("%s: the accent of hue %g has hue %g", base.Colour.Hex(), a.Hue, a.Made.Hue())
	}
}

func TestLinesKeepTheirPromises(t *testing.T) {
	eachBase(func(base analysis.Spot) {
		s := Shade(base, DefaultOptions())
		for i, line := range s.Lines {
			checkStep(t, base, line.Step, float64(3+i))
			if line.MayVanish != (analysis.AsPrinted(base.Value) > 9) {
				t.Fatalf("%s of value %.2f: may vanish %v", base.Colour.Hex(), base.Value, line.MayVanish)
			}
			if line.SaturationGain == nil {
				continue
			}
			// 8 bits have few colours near black: rounding alone may take that much (our
			// own allowance).
			allowed := 1e-9
			if line.Spot.Lightness < 20 {
				allowed = 0.02
			}
			if line.Spot.Lightness < 3 {
				allowed = 0.15
			}
			if gain := *line.SaturationGain; line.Spot.Chroma >= 8 && gain < -allowed {
				t.Fatalf("%s: %s is less saturated by %g", base.Colour.Hex(), line.Spot.Colour.Hex(), -gain)
			}
		}
	})
}

// Bringing keeps A's lightness and B's hue, and never adds chroma; both ways.
func TestBringLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := analysis.SpotOf(analysistest.DrawColour(t, "a")), analysis.SpotOf(analysistest.DrawColour(t, "b"))
		m := Bring(a, b)
		checkCode(t, m.Matched.Colour, m.Made, promise{ByLightness, a.Lightness})
		c := m.Made.Chroma()
		if !m.Made.InGamut() || c > b.Oklab.Chroma()+1e-6 {
			t.Fatalf("%s brought to %s: %v", b.Colour.Hex(), a.Colour.Hex(), m.Made)
		}
		if c > 1e-3 && math.Abs(families.TurnBetween(b.Oklab.Hue(), m.Made.Hue())) > 1e-4 {
			t.Fatalf("%s brought to %s turned", b.Colour.Hex(), a.Colour.Hex())
		}
		if self := Bring(b, b); self.Matched.Colour != b.Colour {
			t.Fatalf("%s brought to itself is %s", b.Colour.Hex(), self.Matched.Colour.Hex())
		}
	})
}

// A colour without chroma keeps all of it anywhere, black and white included; one with chroma
// keeps none in black.
func TestBringKeepsNoChromaWhole(t *testing.T) {
	grey, red := analysis.SpotOf(colour.RGB{R: 128, G: 128, B: 128}), analysis.SpotOf(colour.RGB{R: 200, G: 40, B: 40})
	for _, a := range []colour.RGB{{}, {R: 255, G: 255, B: 255}, {R: 90, G: 90, B: 90}, {R: 0, G: 0, B: 255}} {
		if m := Bring(analysis.SpotOf(a), grey); m.Note != AsMade || !m.Matched.Colour.Neutral() && a.Neutral() {
			t.Errorf("grey brought to %s: %s, %q", a.Hex(), m.Matched.Colour.Hex(), m.Note)
		}
	}
	for _, a := range []colour.RGB{{}, {R: 255, G: 255, B: 255}} {
		if m := Bring(analysis.SpotOf(a), red); m.Note != AtEdge {
			t.Errorf("red brought to %s: %q", a.Hex(), m.Note)
		}
	}
}

// No colour is suggested twice; beside black and white there is one.
func TestSuggestsEachColourOnce(t *testing.T) {
	eachBase(func(base analysis.Spot) {
		if base.Colour.R%2 == 1 && base.Colour.R < 255 {
			return
		}
		seen := map[colour.RGB]bool{}
		for _, a := range Shade(base, DefaultOptions()).Suggested {
			if seen[a.Spot.Colour] {
				t.Fatalf("%s: %s is suggested twice", base.Colour.Hex(), a.Spot.Colour.Hex())
			}
			seen[a.Spot.Colour] = true
		}
		want := 3
		if base.Colour == (colour.RGB{}) || base.Colour == (colour.RGB{R: 255, G: 255, B: 255}) {
			want = 1
		}
		if len(seen) > want || len(seen) == 0 || want == 3 && base.Chroma >= 8 && base.Lightness > 20 && len(seen) < 2 {
			t.Fatalf("%s: %d suggested", base.Colour.Hex(), len(seen))
		}
	})
}

// The JSON names are the contract of the command line; without room, colour and figures are
// null, and the word stands beside.
func TestShadesJSON(t *testing.T) {
	fields := testkit.FieldsOf(t, Shade(analysis.SpotOf(colour.RGB{R: 40, G: 30, B: 30}), DefaultOptions()))
	for name, want := range map[string]struct {
		length int
		names  string
	}{
		"ramp":         {3, "tones_below colour lightness value layer_grey ok_lightness seen_lightness chroma hue hue_turn saturation_gain outcome"},
		"lights":       {2, "tones_below colour lightness"},
		"black_ramp":   {3, "tones_below colour lightness"},
		"accents":      {24, "oklch_hue colour lightness value chroma hue oklch_chroma in_gamut layer_grey seen_lightness outcome"},
		"full_accents": {24, "oklch_hue colour lightness oklch_chroma in_gamut"},
		"suggested":    {3, "oklch_hue colour lightness oklch_chroma in_gamut"},
		"lines":        {3, "tones_below colour lightness may_vanish outcome"},
	} {
		list, _ := fields[name].([]any)
		if len(list) != want.length {
			t.Errorf("%s holds %d", name, len(list))
			continue
		}
		for _, element := range list {
			for _, field := range strings.Fields(want.names) {
				if _, ok := element.(map[string]any)[field]; !ok {
					t.Errorf("%s has no %s: %v", name, field, element)
				}
			}
		}
	}
	deep := fields["ramp"].([]any)[2].(map[string]any)
	if deep["colour"] != nil || deep["lightness"] != nil || deep["outcome"] != "out_of_range" || deep["tones_below"] != 3.0 {
		t.Errorf("three tones under value 1.5: %v", deep)
	}
	if _, err := json.Marshal(Bring(analysis.SpotOf(colour.RGB{R: 1, G: 2, B: 3}), analysis.SpotOf(colour.RGB{}))); err != nil {
		t.Error(err)
	}
}

func BenchmarkShade(b *testing.B) { // budget: 1 ms: it follows a live spot
	base := analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85})
	for _, by := range []EqualBy{ByLightness, ByLayerGrey, BySeenLightness} {
		b.Run(string(by), func(b *testing.B) {
			o := DefaultOptions()
			o.EqualBy = by
			b.ReportAllocs()
			for b.Loop() {
				Shade(base, o)
			}
		})
	}
}
