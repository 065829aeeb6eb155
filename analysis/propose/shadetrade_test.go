package propose

import (
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/internal/testkit"
)

// zone is a range of Oklch hues that painters call by one name, in degrees; it may run past
// 360 (common practice, no source).
type zone struct {
	name     string
	from, to float64
}

func (z zone) holds(hue float64) bool {
	return hue >= z.from && hue <= z.to || hue+360 >= z.from && hue+360 <= z.to
}

// The way into the shadow that the trade teaches for yellows and skin.
var shadowWay = []zone{{"yellow", 75, 115}, {"orange", 40, 75}, {"red or pink", 340, 400}, {"purple", 285, 340}}

// Common practice, no source: yellow goes by orange and red or pink to purple, and so does
// skin, from where it begins. The colours are invented.
func TestShadowsOfYellowsAndSkin(t *testing.T) {
	for _, tt := range []struct {
		name, colour string
		zones        []int // of shadowWay: the base's and the steps'
	}{
		{"common practice: yellow", "#f6d32d", []int{0, 1, 2, 3}},
		{"common practice: lemon yellow", "#fff04a", []int{0, 1, 2, 3}},
		{"common practice: ochre", "#d9a82c", []int{0, 1, 2, 3}},
		{"common practice: skin", "#e2ab85", []int{1, 2, 2, 3}},
		{"common practice: pale skin", "#f3d3bd", []int{1, 2, 2, 3}},
		{"common practice: brown skin", "#b5794f", []int{1, 2, 2, 3}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := Shade(colourSpot(t, tt.colour), DefaultOptions())
			hues := []float64{s.Base.Oklab.Hue()}
			for _, step := range s.Ramp {
				if step.Spot == nil {
					t.Fatalf("no room at %g tones", step.Tones)
				}
				hues = append(hues, step.Spot.Oklab.Hue())
			}
			for i, hue := range hues {
				if z := shadowWay[tt.zones[i]]; !z.holds(hue) {
					t.Errorf("%d tones darker: hue %.0f is not %s", i, hue, z.name)
				}
			}
		})
	}
}

func colourSpot(t testkit.Fataler, text string) analysis.Spot {
	t.Helper()
	c, err := colour.Parse(text)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return analysis.SpotOf(c)
}

// Common practice, no source: the hue of the line beside a fill. The colours are invented.
func TestLinesTakeTheColourOfTheForm(t *testing.T) {
	redBrown, maroon := zone{"red-brown", 20, 50}, zone{"maroon", 345, 390}
	brown, violet := zone{"brown", 45, 80}, zone{"deep violet", 268, 310}
	for _, tt := range []struct {
		name, colour string
		want         zone
	}{
		{"common practice: skin", "#e2ab85", redBrown},
		{"common practice: pale skin", "#f3d3bd", redBrown},
		{"common practice: brown skin", "#b5794f", redBrown},
		{"common practice: pink", "#f4a9b8", maroon},
		{"common practice: pale pink", "#fcd3d8", maroon},
		{"common practice: rose", "#e36f92", maroon},
		{"common practice: yellow", "#f6d32d", brown},
		{"common practice: lemon yellow", "#fff04a", brown},
		{"common practice: pure yellow", "#ffff00", brown},
		{"common practice: blue", "#3f6fd0", violet},
		{"common practice: light blue", "#8ab8ea", violet},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := Shade(colourSpot(t, tt.colour), DefaultOptions())
			lines := 0
			for _, line := range s.Lines {
				if line.Spot == nil {
					continue
				}
				lines++
				if hue := line.Spot.Oklab.Hue(); !tt.want.holds(hue) {
					t.Errorf("%g tones: %s of hue %.0f is not %s", line.Tones, line.Spot.Colour.Hex(), hue, tt.want.name)
				}
				if line.SaturationGain == nil || !(*line.SaturationGain > 0 || line.Note == AtEdge) {
					t.Errorf("%g tones: %s is not more saturated", line.Tones, line.Spot.Colour.Hex())
				}
			}
			if lines < 2 {
				t.Errorf("%d lines only", lines)
			}
		})
	}
}

// Common practice, no source: a very light fill's line may vanish under strong light, above
// value 9. By D1535, L* 95 is about value 9.5, and L* 85 about 8.4.
func TestLinesMayVanish(t *testing.T) {
	for colour, want := range map[string]bool{"#f1f1f1": true, "#fff8e0": true, "#d4d4d4": false, "#e2ab85": false} {
		for _, line := range Shade(colourSpot(t, colour), DefaultOptions()).Lines {
			if line.MayVanish != want {
				t.Errorf("%s, %g tones: may vanish %v", colour, line.Tones, line.MayVanish)
			}
		}
	}
}

// The rule of turning (common practice, no source): hues from 0 to 125 downwards through red,
// others the shorter way, by a quarter of the way per tone.
func TestWayToShadow(t *testing.T) {
	for _, tt := range []struct{ hue, shadow, want float64 }{
		{0, 283, -77}, {29, 283, -106}, {60, 283, -137}, {110, 283, -187}, {125, 283, -202},
		{126, 283, 157}, {142, 283, 141}, {200, 283, 83}, {264, 283, 19}, {283, 283, 0}, {330, 283, -47}, {359, 283, -76},
		// a warm brown-red shadow under cool light: never all round the circle
		{60, 35, -25}, {10, 35, 25}, {110, 35, -75}, {264, 35, 131}, {142, 35, -107}, {200, 35, -165},
	} {
		if got := wayToShadow(tt.hue, tt.shadow); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("from %g to %g: %g, want %g", tt.hue, tt.shadow, got, tt.want)
		}
	}
}

func TestRampTurnsByTheSettings(t *testing.T) {
	base := colourSpot(t, "#e2ab85")
	way := wayToShadow(base.Oklab.Hue(), 283)
	for _, turn := range []float64{0, 0.1, 0.25, 0.5, 1} {
		o := DefaultOptions()
		o.Turn, o.Gain = turn, 0
		for i, step := range Shade(base, o).Ramp {
			want := way * math.Min(turn*float64(i+1), 1)
			if got := step.Made.Hue() - base.Oklab.Hue(); math.Abs(families.TurnBetween(want, got)) > 1e-6 {
				t.Errorf("turn %g, %d tones: turned by %g, want %g", turn, i+1, got, want)
			}
			if math.Abs(colour.Saturation(step.Made)-colour.Saturation(base.Oklab)) > 1e-6 {
				t.Errorf("turn %g, %d tones: saturation %g without gain", turn, i+1, colour.Saturation(step.Made))
			}
		}
	}
}

// Without turn and gain, the ramp goes straight toward black.
func TestRampWithoutTurnAndGainIsTheBlackRamp(t *testing.T) {
	o := DefaultOptions()
	o.Turn, o.Gain = 0, 0
	eachBase(func(base analysis.Spot) {
		if base.Chroma < 8 { // gains the shadow's tint
			return
		}
		s := Shade(base, o)
		for i := range s.Ramp {
			if (s.Ramp[i].Spot == nil) != (s.BlackRamp[i].Spot == nil) ||
				s.Ramp[i].Spot != nil && s.Ramp[i].Spot.Colour != s.BlackRamp[i].Spot.Colour {
				t.Fatalf("%s: %+v and %+v", base.Colour.Hex(), s.Ramp[i], s.BlackRamp[i])
			}
		}
	})
}

// Two and three tones of the default ramp read as a shadow by the trade's rules, and none
// goes toward black as long as there is chroma to see it.
func TestRampSatisfiesTheRules(t *testing.T) {
	rules := families.DefaultRules()
	eachBase(func(base analysis.Spot) {
		for _, step := range Shade(base, DefaultOptions()).Ramp {
			if step.Spot == nil || step.Tones < rules.LeastTones {
				continue
			}
			f := families.Of(base, *step.Spot, rules)
			if f.Verdict[0] != families.Reads {
				t.Fatalf("%s with %s: %v", base.Colour.Hex(), step.Spot.Colour.Hex(), f.Verdict)
			}
			// At hues near the shadow's own there is no way to turn, and near black no chroma.
			if f.TowardBlack && math.Abs(wayToShadow(base.Oklab.Hue(), WarmLightShadow)) > 20 && step.Spot.Chroma >= rules.LeastChroma {
				t.Fatalf("%s with %s: turn %v, gain %v", base.Colour.Hex(), step.Spot.Colour.Hex(), *f.HueTurn, *f.SaturationGain)
			}
		}
	})
}

// A neutral has no hue: its ramp takes the tint of the shadow, its way toward black stays
// grey, and it gets accents all the same.
func TestShadesOfNeutrals(t *testing.T) {
	for code := 0; code < 256; code += 5 {
		base := analysis.SpotOf(colour.RGB{R: uint8(code), G: uint8(code), B: uint8(code)})
		s := Shade(base, DefaultOptions())
		for i, step := range s.Ramp {
			if step.HueTurn != nil || step.SaturationGain != nil {
				t.Fatalf("grey %d: turn %v, gain %v", code, step.HueTurn, step.SaturationGain)
			}
			if step.Spot == nil {
				continue
			}
			if c := s.BlackRamp[i].Made; c.A != 0 || c.B != 0 {
				t.Fatalf("grey %d goes toward black as %v", code, c)
			}
			if step.Made.L > 0 && math.Abs(families.TurnBetween(step.Made.Hue(), WarmLightShadow)) > 1e-6 {
				t.Fatalf("grey %d: the shadow has hue %g", code, step.Made.Hue())
			}
		}
		hues := 0
		for _, a := range s.Accents {
			if a.Spot.Hue != nil {
				hues++
			}
		}
		if want := AccentHues; code > 0 && code < 255 && hues != want || (code == 0 || code == 255) && hues != 0 {
			t.Errorf("grey %d has %d accents with a hue", code, hues)
		}
	}
}
