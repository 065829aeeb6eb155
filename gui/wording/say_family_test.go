package wording

import (
	"slices"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// valued is a spot of a value, and of Oklch's saturation and hue as they come of a and b.
func valued(value, chroma, a, b float64) analysis.Spot {
	return analysis.Spot{
		Value: value, Lightness: 10 * value, Chroma: chroma,
		Oklab: colour.Oklab{L: 0.5, A: a, B: b},
	}
}

// The trade's words for its limits (common practice, no source).
func TestSayFamilyTitle(t *testing.T) {
	light := valued(7.2, 40, 0.1, 0.1)
	for _, tt := range []struct {
		shadow       float64
		title, short string
	}{
		{5, "2.2 tones: reads", "2.2: reads"},
		{5.2, "2.0 tones: reads", "2.0: reads"},
		{4.2, "3.0 tones: reads", "3.0: reads"},
		{6.4, "0.8 tones: a soft step", "0.8: a soft step"},
		{5.26, "1.9 tones: a soft step", "1.9: a soft step"},
		{3.1, "4.1 tones: a strong step", "4.1: a strong step"},
	} {
		got := SayFamily(families.Of(light, valued(tt.shadow, 40, 0.15, 0), families.DefaultRules()))
		if strings.ReplaceAll(got.Title, Nbsp, " ") != tt.title || got.Short != tt.short {
			t.Errorf("shadow at %g: %q, %q, want %q", tt.shadow, got.Title, got.Short, tt.title)
		}
	}
}

// Hue names stand at the limits of analysis.HueName; atan2 by hand: (0.1, 0.1) is 45 degrees,
// red; (0.1, 0) is 0, red; (0, 0.1) is 90, yellow; (0.1, -0.1) is 315, magenta.
func TestSayTurn(t *testing.T) {
	for _, tt := range []struct {
		a, b, c, d float64 // Oklab a and b of light and shadow
		chroma     float64
		want       string
	}{
		{0, 0.1, 0.1, 0.1, 40, "hue shift 45.0° toward red, 41 % richer"},
		{0.1, 0.1, 0, 0.1, 40, "hue shift 45.0° toward yellow, 29 % duller"},
		{0.1, 0.1, 0.1, 0, 40, "hue shift 45.0° toward magenta, 29 % duller"}, // 0 is red as 45 is: on toward magenta
		{0.1, 0, 0.1, -0.1, 40, "hue shift 45.0° toward magenta, 41 % richer"},
		{0.1, 0.1, 0.1, 0.1, 40, "same hue, same saturation"},
		{0.1, 0.1, 0.1, 0.1, 7, ""},
		{0, 0.05, 0.1, 0.1, 12, "hue shift 45.0° toward red, richer"}, // 183 % of next to nothing
		{0.1, 0.1, 0, 0.05, 12, "hue shift 45.0° toward yellow, duller"},
	} {
		f := families.Of(valued(7, tt.chroma, tt.a, tt.b), valued(5, tt.chroma, tt.c, tt.d), families.DefaultRules())
		if got := strings.ReplaceAll(SayFamily(f).Turn, Nbsp, " "); got != tt.want {
			t.Errorf("%+v: %q", tt, got)
		}
	}
}

// A neutral shadow's saturation is chance: nothing is said of how it grew.
func TestSayTurnOfNeutralShadows(t *testing.T) {
	light := analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85})
	for code, want := range map[colour.RGB]string{
		{}: "", {B: 1}: "nearly neutral", {R: 0x60, G: 0x60, B: 0x60}: "neutral", {R: 0x64, G: 0x60, B: 0x5e}: "nearly neutral",
	} {
		if got := SayFamily(families.Of(light, analysis.SpotOf(code), families.DefaultRules())).Turn; got != want {
			t.Errorf("%s: %q, want %q", code.Hex(), got, want)
		}
	}
}

func TestSayFamilyRemarks(t *testing.T) {
	f := families.Of(valued(9.2, 40, 0.1, 0.1), valued(7, 40, 0.1, 0.1), families.DefaultRules())
	overlap := 0.42
	f.Overlap = &overlap
	f.Verdict = append(f.Verdict, families.Overlaps)
	f.Accent = &families.Accent{Spot: valued(7, 60, 0.2, 0), LightnessDifference: -1, KeepsLightness: true}
	f.Line = &families.Line{Spot: valued(2, 3, 0, 0.01), TonesBelow: 7.2, Neutral: true, MayVanish: true}
	want := []string{
		"straight toward black: shift the hue first",
		"the lightest shadow is 0.4 tones lighter than the darkest light",
		"core-shadow accent #000000 keeps its lightness: 1.0 darker",
		"neutral black line #000000, 7.2 tones below the fill, may vanish in so strong a light",
	}
	got := SayFamily(f).Remarks
	for i := range got {
		got[i] = strings.ReplaceAll(got[i], Nbsp, " ")
	}
	if !slices.Equal(got, want) {
		t.Errorf("says %q", got)
	}
}

func TestSayAccentAndLine(t *testing.T) {
	for difference, want := range map[float64]string{
		5.2: "core-shadow accent #000000 is 5.2 lighter than the nearer side", -3.1: "core-shadow accent #000000 is 3.1 darker than the nearer side",
	} {
		if got := sayAccent(families.Accent{LightnessDifference: difference}); got != want {
			t.Errorf("%g: %q", difference, got)
		}
	}
	for _, tt := range []struct {
		line families.Line
		want string
	}{
		{families.Line{Spot: valued(3, 2, 0, 0), TonesBelow: 4.2, Neutral: true}, "neutral black line #000000, 4.2 tones below the fill"},
		{families.Line{Spot: valued(3.1, 2, 0, 0), TonesBelow: 4.1, Neutral: true}, "neutral grey line #000000, 4.1 tones below the fill"},
		{families.Line{Spot: valued(3, 20, 0.1, 0), TonesBelow: 1.5}, "red line #000000, 1.5 tones below the fill"},
		{families.Line{Spot: valued(3, 20, 0.1, 0), TonesBelow: -0.5}, "red line #000000, 0.5 tones above the fill"},
	} {
		if got := strings.ReplaceAll(sayLine(tt.line), Nbsp, " "); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}
