package propose

import (
	"math"
	"slices"
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

// Hues of dark colours, in Oklch degrees (common practice, no source).
var (
	orange   = zone{"orange", 45, 85}
	redBrown = zone{"red-brown", 20, 58}
	mauve    = zone{"mauve", 330, 380}
)

// Common practice, no source: yellow goes by orange to red-brown, never by pink or green; skin
// ends near a red-brown or, where the shadow is violet, a mauve. The colours are invented.
func TestShadowsOfYellowsAndSkin(t *testing.T) {
	toRedBrown := [][]zone{{orange}, {orange, redBrown}, {redBrown}}
	rosy := [][]zone{{redBrown}, {redBrown, mauve}, {mauve}}
	for _, tt := range []struct {
		name, colour string
		warm, cool   [][]zone // one, two, three tones darker
	}{
		{"common practice: yellow", "#f6d32d", toRedBrown, toRedBrown},
		{"common practice: lemon yellow", "#fff04a", toRedBrown, toRedBrown},
		{"common practice: pure yellow", "#ffff00", toRedBrown, toRedBrown},
		{"common practice: ochre", "#d9a82c", toRedBrown, toRedBrown},
		{"common practice: skin", "#e2ab85", rosy, [][]zone{{redBrown}, {redBrown}, {redBrown}}},
		{"common practice: pale skin", "#f3d3bd", rosy, [][]zone{{redBrown}, {redBrown}, {redBrown}}},
		{"common practice: brown skin", "#b5794f", rosy, [][]zone{{redBrown}, {redBrown}, {redBrown}}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			for light, want := range map[float64][][]zone{WarmLightShadow: tt.warm, CoolLightShadow: tt.cool} {
				for i, step := range Shade(colourSpot(t, tt.colour), inLight(light)).Ramp {
					hue := step.Spot.Oklab.Hue()
					if !slices.ContainsFunc(want[i], func(z zone) bool { return z.holds(hue) }) {
						t.Errorf("shadow's hue %g, %g tones: %s of hue %.0f is not of %v", light, step.Tones, step.Spot.Colour.Hex(), hue, want[i])
					}
				}
			}
		})
	}
}

// Common practice, no source: a shadow of these keeps the name of its local colour. The
// colours are invented; their names are those of CSS's hues, where teal is cyan.
func TestShadowsKeepTheirNames(t *testing.T) {
	for _, tt := range []struct{ name, colour string }{
		{"green", "#4f9a4c"}, {"green", "#2f8f57"}, {"green", "#66b84a"}, {"green", "#8fc7a0"},
		{"red", "#c0392b"}, {"red", "#b3243c"}, {"red", "#e0584e"}, {"red", "#e36f92"},
		{"cyan", "#1f8a88"}, {"cyan", "#2a9d8f"}, {"cyan", "#0f7f8f"}, {"cyan", "#7fc4c2"},
	} {
		base := colourSpot(t, tt.colour)
		if got := colour.HueName(base.Oklab.Hue()); got != tt.name {
			t.Fatalf("%s is %s, not %s", tt.colour, got, tt.name)
		}
		for _, light := range bothLights {
			for _, step := range Shade(base, inLight(light)).Ramp[:2] {
				if got := colour.HueName(step.Spot.Oklab.Hue()); got != tt.name {
					t.Errorf("%s, shadow's hue %g, %g tones: %s is %s", tt.colour, light, step.Tones, step.Spot.Colour.Hex(), got)
				}
			}
		}
	}
}

// bothLights are the hues of shadows in warm and in cool light.
var bothLights = []float64{WarmLightShadow, CoolLightShadow}

// inLight returns the default settings with a hue of the shadow.
func inLight(shadow float64) Options {
	o := DefaultOptions()
	o.ShadowHue = shadow
	return o
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
// others the shorter way.
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

// Our choice: skin turns by 135 degrees times the setting at the first tone and by six tenths
// of the tone before at each further one, but not past the shadow's hue. A skin's hue is
// within a degree of what counts as skin's: one in a hundred.
func TestRampTurnsByTheSettings(t *testing.T) {
	base := colourSpot(t, "#e2ab85")
	way := wayToShadow(base.Oklab.Hue(), WarmLightShadow)
	for _, turn := range []float64{0, 0.1, 0.15, 0.25, 0.5, 1} {
		o := DefaultOptions()
		o.Turn, o.Gain = turn, 0
		for i, step := range Shade(base, o).Ramp {
			want := -min(135*turn*[]float64{1, 1.6, 1.96}[i], -way)
			if got := step.Made.Hue() - base.Oklab.Hue(); math.Abs(families.TurnBetween(want, got)) > 0.01*math.Abs(want)+1e-6 {
				t.Errorf("turn %g, %d tones: turned by %g, want %g", turn, i+1, got, want)
			}
			if math.Abs(colour.Saturation(step.Made)-colour.Saturation(base.Oklab)) > 1e-6 {
				t.Errorf("turn %g, %d tones: saturation %g without gain", turn, i+1, colour.Saturation(step.Made))
			}
		}
	}
}

// Our choice: about 20, 32 and 40 degrees for skin, and no colour turns by much more than
// yellow's half as much again.
func TestDefaultHueShift(t *testing.T) {
	skin := Shade(colourSpot(t, "#e2ab85"), DefaultOptions())
	for i, want := range []float64{-20, -32, -40} {
		if got := *skin.Ramp[i].HueTurn; math.Abs(got-want) > 2 {
			t.Errorf("%d tones: skin turns by %.1f, want about %g", i+1, got, want)
		}
	}
	for hue := 0.0; hue < 360; hue += 0.5 {
		for _, light := range bothLights {
			if shift := math.Abs(shadowShift(hue, light, DefaultTurn, 3)); shift > 60 {
				t.Errorf("hue %g turns by %.1f", hue, shift)
			}
		}
	}
}

// Without turn and gain, the ramp goes straight toward black; its codes may differ, since those
// of a shadow stay inside of the gamut.
func TestRampWithoutTurnAndGainIsTheBlackRamp(t *testing.T) {
	o := DefaultOptions()
	o.Turn, o.Gain = 0, 0
	eachBase(func(base analysis.Spot) {
		if base.Chroma < 8 { // gains the shadow's tint
			return
		}
		s := Shade(base, o)
		for i := range s.Ramp {
			shadow, black := s.Ramp[i], s.BlackRamp[i]
			if shadow.Spot == nil || black.Spot.Lightness < 20 { // codes there are few: a shadow gives up chroma to stay inside
				continue
			}
			if p, q := shadow.Made, black.Made; math.Abs(p.A-q.A)+math.Abs(p.B-q.B) > 1e-6 {
				t.Fatalf("%s: %+v and %+v", base.Colour.Hex(), shadow, black)
			}
		}
	})
}

// Two and three tones of the default ramp read as a shadow by the trade's rules, and none
// goes toward black as long as there is chroma to see it, in both lights.
func TestRampSatisfiesTheRules(t *testing.T) {
	rules := families.DefaultRules()
	for _, light := range bothLights {
		eachBase(func(base analysis.Spot) {
			for _, step := range Shade(base, inLight(light)).Ramp {
				if step.Spot == nil || step.Tones < rules.LeastTones {
					continue
				}
				f := families.Of(base, *step.Spot, rules)
				if f.Verdict[0] != families.Reads || slices.Contains(f.Verdict, families.Unlike) {
					t.Fatalf("%s with %s: %v", base.Colour.Hex(), step.Spot.Colour.Hex(), f.Verdict)
				}
				// Near black there is no chroma, and codes are coarse (L* 10, our choice); and where the hue keeps its name or is the shadow's
				// own already, the display may have no more either.
				stays := math.Abs(shadowShift(base.Oklab.Hue(), light, DefaultTurn, step.Tones)) < rules.LeastTurn+1
				if f.TowardBlack && !(stays && step.Note == AtEdge) && step.Spot.Chroma >= rules.LeastChroma && step.Spot.Lightness >= 10 {
					t.Fatalf("%s with %s: turn %v, gain %v", base.Colour.Hex(), step.Spot.Colour.Hex(), *f.HueTurn, *f.SaturationGain)
				}
			}
		})
	}
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
