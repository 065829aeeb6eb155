package wording

import (
	"math"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/lawtest"
)

func TestSayPair(t *testing.T) {
	tests := []struct {
		name                       string
		pair                       analysis.Pair
		title, short, below, right string
	}{
		{"a shadow of two tones", analysis.Pair{LightnessDifference: -21.8, Tones: -2.2, Verdict: analysis.Apart},
			"B is 2.2 tones darker", "B 2.2 tones darker", "Two to three tones: a shadow that reads", "a shadow that reads"},
		{"a light", analysis.Pair{LightnessDifference: 25, Tones: 2.5, Verdict: analysis.Apart},
			"B is 2.5 tones lighter", "B 2.5 tones lighter", "Two to three tones: a light that reads", "a light that reads"},
		{"equal", analysis.Pair{Verdict: analysis.Same},
			"Same lightness", "Same lightness", "No difference in lightness", ""},
		{"within the tolerance", analysis.Pair{LightnessDifference: -1.4, Tones: -0.1, Verdict: analysis.Same},
			"Same lightness", "Same lightness", "Lightness differs by 1.4", ""},
		{"less than is printed", analysis.Pair{LightnessDifference: 0.02, Verdict: analysis.Same},
			"Same lightness", "Same lightness", "No difference in lightness", ""},
		{"close", analysis.Pair{LightnessDifference: 3, Tones: 0.3, Verdict: analysis.Close},
			"B is 0.3 tones lighter", "B 0.3 tones lighter", "Close: half a tone or less", "close"},
		{"just over a strict tolerance", analysis.Pair{LightnessDifference: -0.55, Tones: -0.049, Verdict: analysis.Close},
			"B is under 0.1 tones darker", "B under 0.1 tones darker", "Close: half a tone or less", "close"},
		{"one tone", analysis.Pair{LightnessDifference: -10, Tones: -1, Verdict: analysis.Apart},
			"B is 1.0 tones darker", "B 1.0 tones darker", "Under two tones: a soft step", "a soft step"},
		{"rounds up to two", analysis.Pair{LightnessDifference: -19.5, Tones: -1.96, Verdict: analysis.Apart},
			"B is 2.0 tones darker", "B 2.0 tones darker", "Two to three tones: a shadow that reads", "a shadow that reads"},
		{"rounds down to three", analysis.Pair{LightnessDifference: -30.2, Tones: -3.04, Verdict: analysis.Apart},
			"B is 3.0 tones darker", "B 3.0 tones darker", "Two to three tones: a shadow that reads", "a shadow that reads"},
		{"white on black", analysis.Pair{LightnessDifference: 100, Tones: 10, Verdict: analysis.Apart},
			"B is 10.0 tones lighter", "B 10.0 tones lighter", "Over three tones: a strong step", "a strong step"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := SayPair(tt.pair, "A", "B")
			for _, pair := range [][2]string{{got.Title, tt.title}, {got.Short, tt.short}, {SayPairMeaning(tt.pair), tt.below}, {SayPairInLine(tt.pair, "A", "B").Right, tt.right}} {
				if plain := strings.ReplaceAll(pair[0], Nbsp, " "); plain != pair[1] {
					t.Errorf("says %q, want %q", plain, pair[1])
				}
			}
		})
	}
}

func TestSayPairNamesSpots(t *testing.T) {
	got := SayPair(pairOf(74.1, 52.3, 2), "A", "D")
	if !strings.HasPrefix(got.Title, "D is ") || len(got.Bars) != 2 || got.Bars[0].Name != "A" || got.Bars[1].Name != "D" {
		t.Errorf("says %+v", got)
	}
	if got.Bars[0].Lightness != 74.1 || got.Bars[1].Lightness != 52.3 || got.Bars[0].Grey <= got.Bars[1].Grey {
		t.Errorf("bars %+v", got.Bars)
	}
}

// For every pair of 8-bit greys and tolerance, no line contradicts another.
func TestSayPairIsConsistent(t *testing.T) {
	lawtest.SkipRaced(t)
	step := 1
	if testing.Short() {
		step = 5
	}
	for a := 0; a < 256; a += step {
		for b := 0; b < 256; b += step {
			for _, tolerance := range []float64{0.5, 2, 5} {
				p := analysis.Compare(analysis.SpotOf(colour.RGB{R: uint8(a), G: uint8(a), B: uint8(a)}),
					analysis.SpotOf(colour.RGB{R: uint8(b), G: uint8(b), B: uint8(b)}), tolerance)
				got, below := SayPair(p, "A", "B"), SayPairMeaning(p)
				tones := analysis.AsPrinted(math.Abs(p.Tones))
				switch {
				case strings.HasPrefix(below, "Close") && tones > 0.5,
					strings.HasPrefix(below, "Under two") && tones >= 2,
					strings.HasPrefix(below, "Two to") && (tones < 2 || tones > 3),
					strings.HasPrefix(below, "Over") && tones <= 3,
					strings.Contains(got.Title, "darker") && b >= a,
					strings.Contains(got.Title, "lighter") && b <= a,
					strings.Contains(got.Title, " 0.0"),
					a == b && got.Title != "Same lightness":
					t.Fatalf("greys %d and %d, tolerance %g: %q, %q", a, b, tolerance, got.Title, below)
				}
			}
		}
	}
}

// What misleads takes the place of what the distance means.
func TestSayPairWithARemark(t *testing.T) {
	grey := func(lightness, layer float64) analysis.Spot {
		return analysis.Spot{Lightness: lightness, Value: colour.Value(lightness), LayerGrey: layer}
	}
	for _, tt := range []struct {
		name         string
		a, b         analysis.Spot
		below, short string
	}{
		{"equally light, shown apart", grey(50, 60), grey(50, 160), "A grey layer shows a difference here", "A grey layer misleads"},
		{"apart, shown alike", grey(40, 120), grey(60, 120), "A grey layer hides this difference", "A grey layer hides it"},
	} {
		if got := SayPair(analysis.Compare(tt.a, tt.b, 2), "A", "B"); got.Below != tt.below || got.BelowShort != tt.short {
			t.Errorf("%s: %q, %q", tt.name, got.Below, got.BelowShort)
		}
	}
	if got := SayRemark(analysis.NoRemark); got != "" {
		t.Errorf("no remark is %q", got)
	}
}

func TestSayFewerSpots(t *testing.T) {
	for _, tt := range []struct {
		name         string
		got          Sentence
		title, short string
		icon         string
		dim          bool
	}{
		{"one spot", SayOneSpot("A", analysis.Spot{Lightness: 80.5, Value: 8.02}, false), "A is value 8.0", "A value 8.0", "", false},
		{"one, from white", SayOneSpot("A", analysis.Spot{Lightness: 80.5, Value: 8.02}, true), "A is value 2.0", "A value 2.0", "", false},
		{"none", SayNoSpot(), "Click a spot", "Click a spot", IconSpot, false},
		{"moved", SayPlaceAgain(), "Place the spots again", "Place spots again", IconSpot, true},
		{"lost", SayNothingToWatch(IconWindow, "2 min"), "Nothing to watch", "Nothing to watch", IconWindow, true},
		{"not chosen", SayChooseSource(), "Choose what to watch", "Choose a picture", IconRegion, false},
	} {
		got := tt.got
		if plainSpaces(got.Title) != tt.title || plainSpaces(got.Short) != tt.short || got.Icon != tt.icon || got.Dim != tt.dim {
			t.Errorf("%s: %+v", tt.name, got)
		}
		if (len(got.Bars) > 0) == (got.Icon != "") {
			t.Errorf("%s has %d bars and the icon %q", tt.name, len(got.Bars), got.Icon)
		}
	}
	if got := SayNothingToWatch(IconWindow, "2 min").Below; got != "Last seen 2 min ago. Choose again in the bar" {
		t.Errorf("a lost window: %q", got)
	}
	if got := SayNothingToWatch(IconFile, "").Below; got != "Choose again in the bar" {
		t.Errorf("a lost file: %q", got)
	}
}

func plainSpaces(s string) string { return strings.ReplaceAll(s, Nbsp, " ") }
