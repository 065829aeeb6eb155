package families

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
)

// made is a spot of a given value, C*ab and Oklch (saturation, hue in degrees), without a
// colour that shows it: the rules look at nothing else.
func made(value, chroma, saturation, hue float64) analysis.Spot {
	s := analysis.Spot{Value: value, Lightness: 10 * value, Chroma: chroma}
	s.Oklab.L = 0.5
	s.Oklab.B, s.Oklab.A = math.Sincos(hue * math.Pi / 180)
	s.Oklab.A *= 0.5 * saturation
	s.Oklab.B *= 0.5 * saturation
	return s
}

// The trade's rules for light and shadow, row by row. All of them are
// common practice, no source.
func TestFamilyVerdictFollowsTheTrade(t *testing.T) {
	const practice = "common practice, no source: "
	light := made(7, 40, 0.2, 60)
	for _, tt := range []struct {
		rule          string
		light, shadow analysis.Spot
		want          []Verdict
	}{
		{practice + "two tones darker reads", light, made(5, 40, 0.3, 30), []Verdict{Reads}},
		{practice + "three tones darker reads", light, made(4, 40, 0.3, 30), []Verdict{Reads}},
		{practice + "under two tones does not", light, made(5.1, 40, 0.3, 30), []Verdict{Soft}},
		{practice + "over three tones may fall out", light, made(3.9, 40, 0.3, 30), []Verdict{Strong}},
		{practice + "limits compare as printed: 1.96 is printed 2.0", light, made(5.04, 40, 0.3, 30), []Verdict{Reads}},
		{practice + "limits compare as printed: 3.04 is printed 3.0", light, made(3.96, 40, 0.3, 30), []Verdict{Reads}},

		{practice + "same hue, no gain: toward black", light, made(4.5, 30, 0.2, 60), []Verdict{Reads, TowardBlack}},
		{practice + "same hue, a gain of 0.05: toward black", light, made(4.5, 30, 0.21, 60), []Verdict{Reads, TowardBlack}},
		{practice + "same hue, a loss: toward black", light, made(4.5, 20, 0.1, 60), []Verdict{Reads, TowardBlack}},
		{practice + "same hue, more gain: not", light, made(4.5, 30, 0.212, 60), []Verdict{Reads}},
		{practice + "turned by 7.9 degrees: toward black", light, made(4.5, 30, 0.2, 52.1), []Verdict{Reads, TowardBlack}},
		{practice + "turned by 8 degrees: not", light, made(4.5, 30, 0.2, 52), []Verdict{Reads}},
		{practice + "turned by 8 degrees the other way: not", light, made(4.5, 30, 0.2, 68), []Verdict{Reads}},
		{practice + "a shadow of C*ab under 8 has no hue: toward black", light, made(4.5, 7.9, 0.05, 240), []Verdict{Reads, TowardBlack}},
		{practice + "unless it is more saturated", light, made(4.5, 7.9, 0.9, 240), []Verdict{Reads}},
		{practice + "skin and blue black, whose saturation is chance: toward black", analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85}), analysis.SpotOf(colour.RGB{R: 0, G: 0, B: 1}), []Verdict{Strong, TowardBlack}},
		{practice + "a shadow of C*ab 8 has one", light, made(4.5, 8, 0.05, 240), []Verdict{Reads}},
		{practice + "not said of a neutral light", made(7, 7.9, 0.05, 60), made(4.5, 6, 0.05, 60), []Verdict{Reads}},
		{practice + "said from C*ab 8 on", made(7, 8, 0.05, 60), made(4.5, 6, 0.05, 60), []Verdict{Reads, TowardBlack}},
		{practice + "black is toward black", light, analysis.Spot{}, []Verdict{Strong, TowardBlack}},
		{practice + "too close and toward black both", light, made(6.2, 30, 0.2, 60), []Verdict{Soft, TowardBlack}},
	} {
		t.Run(tt.rule, func(t *testing.T) {
			f := Of(tt.light, tt.shadow, DefaultRules())
			if !slices.Equal(f.Verdict, tt.want) || f.TowardBlack != slices.Contains(tt.want, TowardBlack) {
				t.Errorf("verdict %v, toward black %v, want %v", f.Verdict, f.TowardBlack, tt.want)
			}
			if f.Overlap != nil || f.Share != nil || f.Accent != nil || f.Line != nil {
				t.Errorf("two colours have no overlap, share, accent or line: %+v", f)
			}
		})
	}
}

// From memory: light and shadow of one material are no more than 70 degrees of hue apart; where
// one has next to no hue, a*b* changes by at most 1.2 times the drop in lightness. The colours
// are invented, and so far from the limits that nobody would take them otherwise.
func TestForeignMaterialsAreUnlike(t *testing.T) {
	for _, tt := range []struct {
		name, light, shadow string
		want                bool
	}{
		{"skin and a blue coat", "#e2ab85", "#3f5fa8", true},
		{"skin and leaves", "#e2ab85", "#4a7a3f", true},
		{"a lemon and red cloth", "#f6e32d", "#b02a3c", true},
		{"grey stone and moss", "#b8b5b0", "#4f7a1f", true},
		{"white cloth and a red scarf", "#eeeae4", "#c02028", true},
		{"a yellow wall and grey slate", "#f0cc3a", "#77777a", true},
		{"skin and its red-brown shadow", "#e2ab85", "#b26a5c", false},
		{"skin and its mauve shadow", "#e2ab85", "#8a5566", false},
		{"a lemon and its red-brown shadow", "#f6d32d", "#b8602c", false},
		{"leaves and their bluish shadow", "#6fae5a", "#2f6f60", false},
		{"white cloth and its blue shadow", "#eeeae4", "#a3a9c4", false},
		{"grey stone, warm in the light and cool in the shadow", "#b8b09c", "#73788a", false},
		{"two greys", "#cccccc", "#888888", false},
		{"skin and black", "#e2ab85", "#000000", false},
		{"one colour twice", "#3f5fa8", "#3f5fa8", false},
	} {
		light, err := colour.Parse(tt.light)
		shadow, err2 := colour.Parse(tt.shadow)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		f := Of(analysis.SpotOf(light), analysis.SpotOf(shadow), DefaultRules())
		if got := slices.Contains(f.Verdict, Unlike); got != tt.want || got && f.Satisfies() {
			t.Errorf("%s: %v", tt.name, f.Verdict)
		}
	}
}

// The limits are settings.
func TestFamilyRulesAreSettings(t *testing.T) {
	rules := DefaultRules()
	rules.LeastTones, rules.MostTones, rules.LeastTurn, rules.MostGain = 1, 1.5, 3, -0.5
	f := Of(made(7, 40, 0.2, 60), made(5.8, 40, 0.2, 60), rules)
	if !slices.Equal(f.Verdict, []Verdict{Reads}) {
		t.Errorf("verdict %v", f.Verdict)
	}
}

// Hue turn and saturation gain of colours whose Oklch is published.
func TestFamilyOfPublishedColours(t *testing.T) {
	const table = "srgb_to_lab_oklab.csv, okL, okC, okh: "
	nan := math.NaN() // can't be known
	for _, tt := range []struct {
		source             string
		light, shadow      colour.RGB
		apart, turn, gain  float64
		toward             string
		straight, positive bool
	}{
		{table + "red to half_red", colour.RGB{R: 255, G: 0, B: 0}, colour.RGB{R: 128, G: 0, B: 0}, 53.237116 - 25.533324, 0,
			0.15457669/0.37669209/(0.25768330/0.62795536) - 1, "", true, true},
		{table + "magenta to half_magenta", colour.RGB{R: 255, G: 0, B: 255}, colour.RGB{R: 128, G: 0, B: 128}, 60.322731 - 29.783778, 0,
			0.19345293/0.42091366/(0.32249099/0.70167386) - 1, "", true, true},
		{table + "red to dark_sat_red", colour.RGB{R: 255, G: 0, B: 0}, colour.RGB{R: 74, G: 0, B: 16}, 53.237116 - 12.566802, 17.4321 - 29.2339,
			0.10388371/0.25943885/(0.25768330/0.62795536) - 1, "magenta", false, true},
		{table + "yellow to red", colour.RGB{R: 255, G: 255, B: 0}, colour.RGB{R: 255, G: 0, B: 0}, 97.138559 - 53.237116, 29.2339 - 109.7692,
			0.25768330/0.62795536/(0.21100587/0.96798273) - 1, "red", false, true},
		{table + "magenta to red, over 0 degrees", colour.RGB{R: 255, G: 0, B: 255}, colour.RGB{R: 255, G: 0, B: 0}, 60.322731 - 53.237116, 29.2339 + 360 - 328.3634,
			0.25768330/0.62795536/(0.32249099/0.70167386) - 1, "red", false, true},
		{table + "white to black: neutral", colour.RGB{R: 255, G: 255, B: 255}, colour.RGB{}, 100, nan, nan, "", false, true},
		{table + "red to black: black has no saturation", colour.RGB{R: 255, G: 0, B: 0}, colour.RGB{}, 53.237116, nan, nan, "", true, true},
	} {
		t.Run(tt.source, func(t *testing.T) {
			f := Of(analysis.SpotOf(tt.light), analysis.SpotOf(tt.shadow), DefaultRules())
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
	f := Of(made(9, 40, 0.2, 60), made(7, 40, 0.3, 30), DefaultRules())
	for _, tt := range []struct {
		value, difference float64
		keeps             bool
	}{
		{7, 0, true}, {7.3, 3, true}, {7.31, 3.1, false}, {6.7, -3, true}, {6.6, -4, false},
		{8.7, -3, true}, {8.6, -4, false}, {9.2, 2, true}, {7.304, 3.04, true}, // printed 3.0
	} {
		a := f.accentOf(made(tt.value, 50, 0.4, 30), DefaultRules())
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
		l := f.lineOf(made(tt.line, tt.chroma, 0.4, 30), DefaultRules())
		if math.Abs(l.TonesBelow-tt.below) > 1e-9 || l.Neutral != tt.neutral || l.MayVanish != tt.vanish {
			t.Errorf("light %g, line %g: %+v", tt.light, tt.line, l)
		}
	}
}

// The JSON names are the command line's contract, in this order; what can't be known is null.
func TestFamilyJSON(t *testing.T) {
	fields := testkit.FieldsOf(t, Of(analysis.SpotOf(colour.RGB{R: 255, G: 255, B: 255}), analysis.SpotOf(colour.RGB{}), DefaultRules()))
	if len(fields) != 13 {
		t.Errorf("%d fields: %v", len(fields), fields)
	}
	for _, name := range []string{"hue_turn", "saturation_gain", "share", "overlap", "accent", "line", "confidence"} {
		if v, ok := fields[name]; !ok || v != nil {
			t.Errorf("%s is %v, there %v", name, v, ok)
		}
	}
	if v, _ := fields["remarks"].([]any); fields["verdict"] != "strong" || v == nil || len(v) != 0 {
		t.Errorf("verdict %v, remarks %v", fields["verdict"], fields["remarks"])
	}
	dull := testkit.FieldsOf(t, Of(analysis.SpotOf(colour.RGB{R: 255}), analysis.SpotOf(colour.RGB{R: 128}), DefaultRules()))
	if v, _ := dull["remarks"].([]any); dull["verdict"] != "reads" || len(v) != 1 || v[0] != "toward_black" {
		t.Errorf("verdict %v, remarks %v", dull["verdict"], dull["remarks"])
	}
	f := Of(analysis.SpotOf(colour.RGB{R: 255, G: 255, B: 255}), analysis.SpotOf(colour.RGB{}), DefaultRules())
	line := testkit.FieldsOf(t, f.lineOf(analysis.SpotOf(colour.RGB{}), DefaultRules()))
	accent := testkit.FieldsOf(t, f.accentOf(analysis.SpotOf(colour.RGB{}), DefaultRules()))
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
		a, b := analysis.SpotOf(analysistest.DrawColour(t, "a")), analysis.SpotOf(analysistest.DrawColour(t, "b"))
		f, g := Of(a, b, DefaultRules()), Of(b, a, DefaultRules())
		if f.Tones != -g.Tones || f.LightnessApart != -g.LightnessApart || (f.HueTurn == nil) != (g.HueTurn == nil) {
			t.Fatalf("%+v turned round is %+v", f, g)
		}
		if f.HueTurn != nil {
			if !(-180 < *f.HueTurn && *f.HueTurn <= 180) || *f.HueTurn != 180 && math.Abs(*f.HueTurn+*g.HueTurn) > 1e-9 {
				t.Fatalf("turns %g and %g", *f.HueTurn, *g.HueTurn)
			}
			if f.TurnsToward() == colour.HueName(a.Oklab.Hue()) && analysis.AsPrinted(*f.HueTurn) != 0 {
				t.Fatalf("turns by %g toward its own hue, %s", *f.HueTurn, f.TurnsToward())
			}
		}
		if a.Colour.Neutral() && (f.TowardBlack || f.HueTurn != nil || f.SaturationGain != nil) {
			t.Fatalf("a neutral light: %+v", f)
		}
		if n := len(f.Verdict); n < 1 || n > 3 || slices.Contains(f.Verdict, TowardBlack) != f.TowardBlack {
			t.Fatalf("verdict %v", f.Verdict)
		}
		if slices.Contains(f.Verdict, Unlike) != slices.Contains(g.Verdict, Unlike) {
			t.Fatalf("%v turned round is %v", f.Verdict, g.Verdict)
		}
	})
}

// Limits of the names: midway between the hues of CSS4's named colours, but for the one between orange
// and yellow: there between ISCC-NBS's (Kelly 1958) vivid orange and vivid yellow.
func TestHueNames(t *testing.T) {
	named := []struct {
		name   string
		colour colour.RGB // of CSS4's table of named colours: red, orange, yellow, lime, cyan, blue, blueviolet, magenta
	}{
		{"red", colour.RGB{R: 255, G: 0, B: 0}}, {"orange", colour.RGB{R: 255, G: 165, B: 0}}, {"yellow", colour.RGB{R: 255, G: 255, B: 0}}, {"green", colour.RGB{R: 0, G: 255, B: 0}},
		{"cyan", colour.RGB{R: 0, G: 255, B: 255}}, {"blue", colour.RGB{R: 0, G: 0, B: 255}}, {"violet", colour.RGB{R: 138, G: 43, B: 226}}, {"magenta", colour.RGB{R: 255, G: 0, B: 255}},
	}
	for i, n := range named {
		next := named[(i+1)%len(named)]
		if got := colour.HueName(analysis.SpotOf(n.colour).Oklab.Hue()); got != n.name {
			t.Errorf("%s is called %s", n.name, got)
		}
		if n.name == "orange" { // ISCC-NBS: vivid orange, vivid yellow
			n.colour, next.colour = colour.RGB{R: 0xf3, G: 0x84}, colour.RGB{R: 0xf3, G: 0xc3}
		}
		hue := analysis.SpotOf(n.colour).Oklab.Hue()
		way := TurnBetween(hue, analysis.SpotOf(next.colour).Oklab.Hue())
		for _, at := range []struct {
			part float64
			want string
		}{{0, n.name}, {0.48, n.name}, {0.52, next.name}} {
			if got := colour.HueName(math.Mod(hue+at.part*way, 360)); got != at.want {
				t.Errorf("%g of the way from %s to %s is %s, want %s", at.part, n.name, next.name, got, at.want)
			}
		}
	}
	if colour.HueName(0) != "red" || colour.HueName(359.999) != "red" || colour.HueName(358.9) != "magenta" {
		t.Error("the circle doesn't close at red")
	}
	for code, want := range map[colour.RGB]string{ // common practice, no source: a painter's yellow and a skin; the colours are invented
		{R: 0xfb, G: 0xc7, B: 0x52}: "yellow", {R: 0xd9, G: 0xa8, B: 0x2c}: "yellow", {R: 0xf0, G: 0xbe, B: 0x95}: "orange", {R: 0xe2, G: 0xab, B: 0x85}: "orange",
	} {
		if got := colour.HueName(analysis.SpotOf(code).Oklab.Hue()); got != want {
			t.Errorf("%s is called %s, want %s", code.Hex(), got, want)
		}
	}
}
