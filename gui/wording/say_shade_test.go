package wording

import (
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
)

func TestSayStep(t *testing.T) {
	base, spot := analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85}), analysis.SpotOf(colour.RGB{R: 0xd2, G: 0x89, B: 0x86})
	turn, gain, none, small := -33.4, 0.218, 0.004, 0.9 // from orange to red, by CSS's names of hues
	tests := []struct {
		step        propose.Step
		tones, want string
	}{
		{propose.Step{Tones: 1, Spot: &spot, HueTurn: &turn, SaturationGain: &gain}, "1 tone darker", "hue shift 33.4° toward red, 22 % richer"},
		{propose.Step{Tones: -2, Spot: &spot, HueTurn: &small, SaturationGain: &none, Note: propose.AtEdge}, "2 tones lighter", "same hue, same saturation, at the gamut's limit"},
		{propose.Step{Tones: 3, Spot: &spot, SaturationGain: &gain}, "3 tones darker", "nearly neutral"}, // its hue can't be known, nor its gain
		{propose.Step{Tones: 3, Note: propose.NoRoom}, "3 tones darker", "out of range"},
		{propose.Step{Tones: 2, Spot: &spot}, "2 tones darker", ""}, // a neutral has nothing to turn
	}
	for _, tt := range tests {
		if got := ordinary(SayStepTones(tt.step.Tones)); got != tt.tones {
			t.Errorf("%q, want %q", got, tt.tones)
		}
		if got := ordinary(SayStep(base, tt.step)); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}

// ordinary turns unbreakable spaces into ordinary ones.
func ordinary(text string) string { return strings.ReplaceAll(text, Nbsp, " ") }

func TestSayLine(t *testing.T) {
	spot, turn, gain := analysis.SpotOf(colour.RGB{R: 200}), 0.5, 0.3
	tests := []struct {
		line propose.Line
		want string
	}{
		{propose.Line{Step: propose.Step{Spot: &spot, HueTurn: &turn, SaturationGain: &gain}, MayVanish: true}, "same hue, 30 % richer, may vanish"},
		{propose.Line{Step: propose.Step{Spot: &spot}, MayVanish: true}, "may vanish"},
		{propose.Line{Step: propose.Step{Note: propose.NoRoom}, MayVanish: true}, "out of range"},
		{propose.Line{Step: propose.Step{Spot: &spot}}, ""},
	}
	for _, tt := range tests {
		if got := ordinary(SayLine(spot, tt.line)); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}

// The sentence on lines is true of all of them: green's hue can't turn without losing
// saturation, greys have none, and black has no room below it.
func TestSayLines(t *testing.T) {
	const line = "A line takes the colour of its form, darker"
	for colour, want := range map[colour.RGB]string{
		{R: 0xe2, G: 0xab, B: 0x85}: line + " and richer.",
		{G: 255}:                    line + ", and richer where the display can show it.",
		{R: 128, G: 128, B: 128}:    line + ".",
		{}:                          "The fill is so dark that a line below it is out of range.",
		{R: 255, G: 250, B: 240}:    "The fill is so light that its line may vanish there.",
	} {
		if got := SayLines(propose.Shade(analysis.SpotOf(colour), propose.DefaultOptions())); got != want {
			t.Errorf("%s: %q, want %q", colour.Hex(), got, want)
		}
	}
	flat := propose.DefaultOptions()
	flat.Gain = -0.2
	if got := SayLines(propose.Shade(analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85}), flat)); got != line+"." {
		t.Errorf("with less saturation: %q", got)
	}
}

// Over 512 fills: where saturation does not rise, it is said, and the display has no more.
func TestSayLinesIsTrue(t *testing.T) {
	for n := range 8 * 8 * 8 {
		fill := colour.RGB{R: uint8(n / 64 * 36), G: uint8(n / 8 % 8 * 36), B: uint8(n % 8 * 36)}
		s := propose.Shade(analysis.SpotOf(fill), propose.DefaultOptions())
		said := SayLines(s)
		for _, l := range s.Lines {
			if l.Spot == nil || !strings.Contains(said, "richer") || l.SaturationGain != nil && *l.SaturationGain >= 0.005 {
				continue
			}
			if !strings.Contains(said, "where the display can show it") || l.Note != propose.AtEdge && l.Spot.Lightness > 0 {
				t.Errorf("%s: %q, line %s, note %q", fill.Hex(), said, l.Spot.Colour.Hex(), l.Note)
			}
		}
	}
}

func TestSayOutcome(t *testing.T) {
	for note, want := range map[propose.Note]string{
		propose.AsMade: "", propose.AtEdge: "at the gamut's limit", propose.AtMost: "at the limit of its chroma", propose.NoRoom: "out of range",
	} {
		if got := SayOutcome(note); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	for by, want := range map[propose.EqualBy]string{
		propose.ByLightness: "the same lightness", propose.ByLayerGrey: "the same layer grey", propose.BySeenLightness: "the same seen lightness",
	} {
		if got := SayEqualBy(by); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestSayBrought(t *testing.T) {
	m := propose.Brought{Matched: analysis.SpotOf(colour.RGB{R: 1, G: 2, B: 3})}
	if got := SayBrought(m, "A", "B"); got != "B at the lightness of A: #010203, with all of its chroma" {
		t.Error(got)
	}
	m.Note = propose.AtEdge
	if got := SayBrought(m, "A", "B"); got != "B at the lightness of A: #010203, with as much chroma as the display has there" {
		t.Error(got)
	}
}

func TestSayJudged(t *testing.T) {
	nearest, distance := analysis.SpotOf(colour.RGB{R: 1, G: 2, B: 3}), 3.08
	tests := []struct {
		judged propose.Judged
		want   string
	}{
		{
			propose.Judged{Family: families.Family{Tones: 2.2, Verdict: []families.Verdict{families.Reads}}},
			"Nothing to change by these rules",
		},
		{
			propose.Judged{
				Family:  families.Family{Tones: 0.84, Verdict: []families.Verdict{families.Soft, families.TowardBlack}},
				Nearest: &nearest, Distance: &distance,
			},
			"The nearest that reads and does not go toward black: #010203, 3.1 (CIEDE2000) away",
		},
		{
			propose.Judged{Family: families.Family{Tones: 4.1, Verdict: []families.Verdict{families.Strong, families.Overlaps}}},
			"A shadow that satisfies the rules is out of range",
		},
		{propose.Judged{Family: families.Family{Tones: 2.2, Verdict: []families.Verdict{families.Reads, families.Unlike}}}, ""},
	}
	for _, tt := range tests {
		if got := ordinary(SayJudged(tt.judged)); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}

// Each part of a judgement is a sentence: a capital letter, a full stop.
func TestSayJudgement(t *testing.T) {
	light, shadow := analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xc0, B: 0x44}), analysis.SpotOf(colour.RGB{R: 0xa4, G: 0x8a, B: 0x2b})
	said := SayJudgement(propose.JudgeShadow(light, shadow, families.DefaultRules(), propose.WarmLightShadow))
	if len(said) != 4 {
		t.Fatalf("says %q", said)
	}
	for _, sentence := range said {
		if sentence != Capitalised(sentence) || !strings.HasSuffix(sentence, ".") {
			t.Errorf("%q is no sentence", sentence)
		}
	}
	if !strings.HasPrefix(said[2], "Straight toward black") {
		t.Errorf("third comes %q", said[2])
	}
}

// Of two foreign materials nothing is praised, and none is offered; the colours are invented.
func TestSayJudgementOfForeignMaterials(t *testing.T) {
	skin, coat := analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85}), analysis.SpotOf(colour.RGB{R: 0x5f, G: 0x80, B: 0xc8})
	said := SayJudgement(propose.JudgeShadow(skin, coat, families.DefaultRules(), propose.WarmLightShadow))
	if len(said) != 2 || !strings.HasSuffix(said[0], "tones: hardly one local colour.") || !strings.HasPrefix(said[1], "The hues are ") {
		t.Errorf("says %q", said)
	}
	if all := strings.Join(said, " "); strings.Contains(all, "reads") || strings.Contains(all, "saturated") || strings.Contains(all, "Nothing to change") {
		t.Errorf("says %q", said)
	}
	grey, moss := analysis.SpotOf(colour.RGB{R: 0xb8, G: 0xb5, B: 0xb0}), analysis.SpotOf(colour.RGB{R: 0x4f, G: 0x7a, B: 0x1f})
	said = SayJudgement(propose.JudgeShadow(grey, moss, families.DefaultRules(), propose.WarmLightShadow))
	if len(said) != 2 || !strings.HasPrefix(said[1], "The colour changes by more ") {
		t.Errorf("says %q", said)
	}
}

func TestCapitalised(t *testing.T) {
	for text, want := range map[string]string{"": "", "same hue": "Same hue", "étude": "Étude", "2.0 tones": "2.0 tones"} {
		if got := Capitalised(text); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestSayEmptyValues(t *testing.T) {
	for _, tt := range []struct {
		empty []int
		want  string
	}{
		{nil, "No value is empty"},
		{[]int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, "Nothing is counted"},
		{[]int{3}, "Empty values: 3 to 4"},
		{[]int{0, 1, 4, 8, 9}, "Empty values: 0 to 2, 4 to 5, 8 to 10"},
	} {
		if got := SayEmptyValues(tt.empty); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}
