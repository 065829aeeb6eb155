package analysis

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/internal/testkit"
)

// made is a spot of a given value, C*ab and Oklch (saturation, hue in degrees), without a
// colour that shows it: the rules look at nothing else.
func made(value, chroma, saturation, hue float64) Spot {
	s := Spot{Value: value, Lightness: 10 * value, Chroma: chroma}
	s.Oklab.L = 0.5
	s.Oklab.B, s.Oklab.A = math.Sincos(hue * math.Pi / 180)
	s.Oklab.A *= 0.5 * saturation
	s.Oklab.B *= 0.5 * saturation
	return s
}

// The trade's rules for light and shadow, row by row as design.md writes them. All of them
// are common practice, no source.
func TestFamilyVerdictFollowsTheTrade(t *testing.T) {
	const practice = "common practice, no source: "
	light := made(7, 40, 0.2, 60)
	for _, tt := range []struct {
		rule          string
		light, shadow Spot
		want          []FamilyVerdict
	}{
		{practice + "two tones darker reads", light, made(5, 40, 0.3, 30), []FamilyVerdict{Reads}},
		{practice + "three tones darker reads", light, made(4, 40, 0.3, 30), []FamilyVerdict{Reads}},
		{practice + "under two tones does not", light, made(5.1, 40, 0.3, 30), []FamilyVerdict{TooClose}},
		{practice + "over three tones may fall out", light, made(3.9, 40, 0.3, 30), []FamilyVerdict{TooFar}},
		{practice + "limits compare as printed: 1.96 is printed 2.0", light, made(5.04, 40, 0.3, 30), []FamilyVerdict{Reads}},
		{practice + "limits compare as printed: 3.04 is printed 3.0", light, made(3.96, 40, 0.3, 30), []FamilyVerdict{Reads}},

		{practice + "same hue, no gain: toward black", light, made(4.5, 30, 0.2, 60), []FamilyVerdict{Reads, TowardBlack}},
		{practice + "same hue, a gain of 0.05: toward black", light, made(4.5, 30, 0.21, 60), []FamilyVerdict{Reads, TowardBlack}},
		{practice + "same hue, a loss: toward black", light, made(4.5, 20, 0.1, 60), []FamilyVerdict{Reads, TowardBlack}},
		{practice + "same hue, more gain: not", light, made(4.5, 30, 0.212, 60), []FamilyVerdict{Reads}},
		{practice + "turned by 7.9 degrees: toward black", light, made(4.5, 30, 0.2, 52.1), []FamilyVerdict{Reads, TowardBlack}},
		{practice + "turned by 8 degrees: not", light, made(4.5, 30, 0.2, 52), []FamilyVerdict{Reads}},
		{practice + "turned by 8 degrees the other way: not", light, made(4.5, 30, 0.2, 68), []FamilyVerdict{Reads}},
		{practice + "a shadow of C*ab under 8 has no hue: toward black", light, made(4.5, 7.9, 0.05, 240), []FamilyVerdict{Reads, TowardBlack}},
		{practice + "unless it is more saturated", light, made(4.5, 7.9, 0.9, 240), []FamilyVerdict{Reads}},
		{practice + "skin and blue black, whose saturation is chance: toward black", SpotOf(RGB{0xe2, 0xab, 0x85}), SpotOf(RGB{0, 0, 1}), []FamilyVerdict{TooFar, TowardBlack}},
		{practice + "a shadow of C*ab 8 has one", light, made(4.5, 8, 0.05, 240), []FamilyVerdict{Reads}},
		{practice + "not said of a neutral light", made(7, 7.9, 0.05, 60), made(4.5, 6, 0.05, 60), []FamilyVerdict{Reads}},
		{practice + "said from C*ab 8 on", made(7, 8, 0.05, 60), made(4.5, 6, 0.05, 60), []FamilyVerdict{Reads, TowardBlack}},
		{practice + "black is toward black", light, Spot{}, []FamilyVerdict{TooFar, TowardBlack}},
		{practice + "too close and toward black both", light, made(6.2, 30, 0.2, 60), []FamilyVerdict{TooClose, TowardBlack}},
	} {
		t.Run(tt.rule, func(t *testing.T) {
			f := FamilyOf(tt.light, tt.shadow, DefaultFamilyRules())
			if !slices.Equal(f.Verdict, tt.want) || f.TowardBlack != slices.Contains(tt.want, TowardBlack) {
				t.Errorf("verdict %v, toward black %v, want %v", f.Verdict, f.TowardBlack, tt.want)
			}
			if f.Overlap != nil || f.Share != nil || f.Accent != nil || f.Line != nil {
				t.Errorf("two colours have no overlap, share, accent or line: %+v", f)
			}
		})
	}
}

// The limits are settings.
func TestFamilyRulesAreSettings(t *testing.T) {
	rules := DefaultFamilyRules()
	rules.LeastTones, rules.MostTones, rules.LeastTurn, rules.MostGain = 1, 1.5, 3, -0.5
	f := FamilyOf(made(7, 40, 0.2, 60), made(5.8, 40, 0.2, 60), rules)
	if !slices.Equal(f.Verdict, []FamilyVerdict{Reads}) {
		t.Errorf("verdict %v", f.Verdict)
	}
}

// Hue turn and saturation gain of colours whose Oklch is published.
func TestFamilyOfPublishedColours(t *testing.T) {
	const table = "srgb_to_lab_oklab.csv, okL, okC, okh: "
	nan := math.NaN() // can't be known
	for _, tt := range []struct {
		source             string
		light, shadow      RGB
		apart, turn, gain  float64
		toward             string
		straight, positive bool
	}{
		{table + "red to half_red", RGB{255, 0, 0}, RGB{128, 0, 0}, 53.237116 - 25.533324, 0,
			0.15457669/0.37669209/(0.25768330/0.62795536) - 1, "", true, true},
		{table + "magenta to half_magenta", RGB{255, 0, 255}, RGB{128, 0, 128}, 60.322731 - 29.783778, 0,
			0.19345293/0.42091366/(0.32249099/0.70167386) - 1, "", true, true},
		{table + "red to dark_sat_red", RGB{255, 0, 0}, RGB{74, 0, 16}, 53.237116 - 12.566802, 17.4321 - 29.2339,
			0.10388371/0.25943885/(0.25768330/0.62795536) - 1, "magenta", false, true},
		{table + "yellow to red", RGB{255, 255, 0}, RGB{255, 0, 0}, 97.138559 - 53.237116, 29.2339 - 109.7692,
			0.25768330/0.62795536/(0.21100587/0.96798273) - 1, "red", false, true},
		{table + "magenta to red, over 0 degrees", RGB{255, 0, 255}, RGB{255, 0, 0}, 60.322731 - 53.237116, 29.2339 + 360 - 328.3634,
			0.25768330/0.62795536/(0.32249099/0.70167386) - 1, "red", false, true},
		{table + "white to black: neutral", RGB{255, 255, 255}, RGB{}, 100, nan, nan, "", false, true},
		{table + "red to black: black has no saturation", RGB{255, 0, 0}, RGB{}, 53.237116, nan, nan, "", true, true},
	} {
		t.Run(tt.source, func(t *testing.T) {
			f := FamilyOf(SpotOf(tt.light), SpotOf(tt.shadow), DefaultFamilyRules())
			near(t, "lightness apart", &f.LightnessApart, tt.apart, 1e-5)
			near(t, "hue turn", f.HueTurn, tt.turn, 1e-3)
			near(t, "saturation gain", f.SaturationGain, tt.gain, 1e-6)
			if f.TowardBlack != tt.straight || (f.Tones > 0) != tt.positive || f.TurnsToward() != tt.toward {
				t.Errorf("toward black %v, %g tones, toward %q", f.TowardBlack, f.Tones, f.TurnsToward())
			}
		})
	}
}

// near compares a figure that may be unknown; want is then NaN.
func near(t *testing.T, what string, got *float64, want, tolerance float64) {
	t.Helper()
	switch {
	case got == nil && math.IsNaN(want):
	case got == nil || math.IsNaN(want) || !(math.Abs(*got-want) <= tolerance):
		t.Errorf("%s is %v, want %g", what, describe(got), want)
	}
}

func describe(v *float64) any {
	if v == nil {
		return "unknown"
	}
	return *v
}

// Common practice, no source: the accent keeps its lightness within 3 L* of the side that is
// nearer in lightness; the line vanishes where the light's value is above 9.
func TestAccentAndLineFollowTheTrade(t *testing.T) {
	f := FamilyOf(made(9, 40, 0.2, 60), made(7, 40, 0.3, 30), DefaultFamilyRules())
	for _, tt := range []struct {
		value, difference float64
		keeps             bool
	}{
		{7, 0, true}, {7.3, 3, true}, {7.31, 3.1, false}, {6.7, -3, true}, {6.6, -4, false},
		{8.7, -3, true}, {8.6, -4, false}, {9.2, 2, true}, {7.304, 3.04, true}, // printed 3.0
	} {
		a := f.accentOf(made(tt.value, 50, 0.4, 30), DefaultFamilyRules())
		if math.Abs(a.LightnessDifference-tt.difference) > 1e-9 || a.KeepsLightness != tt.keeps {
			t.Errorf("accent at value %g: difference %g, keeps %v", tt.value, a.LightnessDifference, a.KeepsLightness)
		}
	}
	for _, tt := range []struct {
		light, line, chroma float64
		below               float64
		neutral, vanish     bool
	}{
		{9, 1, 0, 8, true, false}, {9.04, 1, 7.9, 8.04, true, false}, {9.1, 2, 8, 7.1, false, true},
	} {
		f.Light.Value = tt.light
		l := f.lineOf(made(tt.line, tt.chroma, 0.4, 30), DefaultFamilyRules())
		if math.Abs(l.TonesBelow-tt.below) > 1e-9 || l.Neutral != tt.neutral || l.MayVanish != tt.vanish {
			t.Errorf("light %g, line %g: %+v", tt.light, tt.line, l)
		}
	}
}

// The JSON names are the command line's contract, in this order; what can't be known is null.
func TestFamilyJSON(t *testing.T) {
	fields := testkit.FieldsOf(t, FamilyOf(SpotOf(RGB{255, 255, 255}), SpotOf(RGB{}), DefaultFamilyRules()))
	if len(fields) != 12 {
		t.Errorf("%d fields: %v", len(fields), fields)
	}
	for _, name := range []string{"hue_turn", "saturation_gain", "share", "overlap", "accent", "line"} {
		if v, ok := fields[name]; !ok || v != nil {
			t.Errorf("%s is %v, there %v", name, v, ok)
		}
	}
	if v, _ := fields["verdict"].([]any); len(v) != 1 || v[0] != "too_far" || fields["toward_black"] != false {
		t.Errorf("verdict %v", fields["verdict"])
	}
	f := FamilyOf(SpotOf(RGB{255, 255, 255}), SpotOf(RGB{}), DefaultFamilyRules())
	line := testkit.FieldsOf(t, f.lineOf(SpotOf(RGB{}), DefaultFamilyRules()))
	accent := testkit.FieldsOf(t, f.accentOf(SpotOf(RGB{}), DefaultFamilyRules()))
	for _, name := range []string{"colour", "lightness", "tones_below", "neutral", "may_vanish"} {
		if _, ok := line[name]; !ok {
			t.Errorf("a line has no %s: %v", name, line)
		}
	}
	for _, name := range []string{"colour", "lightness", "lightness_difference", "keeps_lightness"} {
		if _, ok := accent[name]; !ok {
			t.Errorf("an accent has no %s: %v", name, accent)
		}
	}
}

// Laws of any two colours: one verdict on the tones; turned round, every difference changes
// its sign; a neutral never has a turn.
func TestFamilyLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := SpotOf(drawColour(t, "a")), SpotOf(drawColour(t, "b"))
		f, g := FamilyOf(a, b, DefaultFamilyRules()), FamilyOf(b, a, DefaultFamilyRules())
		if f.Tones != -g.Tones || f.LightnessApart != -g.LightnessApart || (f.HueTurn == nil) != (g.HueTurn == nil) {
			t.Fatalf("%+v turned round is %+v", f, g)
		}
		if f.HueTurn != nil {
			if !(-180 < *f.HueTurn && *f.HueTurn <= 180) || *f.HueTurn != 180 && math.Abs(*f.HueTurn+*g.HueTurn) > 1e-9 {
				t.Fatalf("turns %g and %g", *f.HueTurn, *g.HueTurn)
			}
			if f.TurnsToward() == HueName(a.Oklab.Hue()) && AsPrinted(*f.HueTurn) != 0 {
				t.Fatalf("turns by %g toward its own hue, %s", *f.HueTurn, f.TurnsToward())
			}
		}
		if a.Colour.Neutral() && (f.TowardBlack || f.HueTurn != nil || f.SaturationGain != nil) {
			t.Fatalf("a neutral light: %+v", f)
		}
		if n := len(f.Verdict); n < 1 || n > 2 || (n == 2) != f.TowardBlack {
			t.Fatalf("verdict %v", f.Verdict)
		}
	})
}

// Limits of the names: midway between the hues of CSS4's named colours.
func TestHueNames(t *testing.T) {
	named := []struct {
		name   string
		colour RGB // of CSS4's table of named colours: red, orange, yellow, lime, cyan, blue, blueviolet, magenta
	}{
		{"red", RGB{255, 0, 0}}, {"orange", RGB{255, 165, 0}}, {"yellow", RGB{255, 255, 0}}, {"green", RGB{0, 255, 0}},
		{"cyan", RGB{0, 255, 255}}, {"blue", RGB{0, 0, 255}}, {"violet", RGB{138, 43, 226}}, {"magenta", RGB{255, 0, 255}},
	}
	for i, n := range named {
		hue := SpotOf(n.colour).Oklab.Hue()
		next := named[(i+1)%len(named)]
		way := turnBetween(hue, SpotOf(next.colour).Oklab.Hue())
		for _, at := range []struct {
			part float64
			want string
		}{{0, n.name}, {0.48, n.name}, {0.52, next.name}} {
			if got := HueName(math.Mod(hue+at.part*way, 360)); got != at.want {
				t.Errorf("%g of the way from %s to %s is %s, want %s", at.part, n.name, next.name, got, at.want)
			}
		}
	}
	if HueName(0) != "red" || HueName(359.999) != "red" || HueName(358.9) != "magenta" {
		t.Error("the circle doesn't close at red")
	}
}
