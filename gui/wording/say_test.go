package wording

import (
	"math"
	"strings"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/capture"
)

// pairOf is a pair of greys by their lightness alone.
func pairOf(a, b, tolerance float64) analysis.Pair {
	spot := func(l float64) analysis.Spot { return analysis.Spot{Lightness: l, Value: colour.Value(l)} }
	return analysis.Compare(spot(a), spot(b), tolerance)
}

func TestSayPair(t *testing.T) {
	tests := []struct {
		name              string
		pair              analysis.Pair
		title, short, sub string
	}{
		{"a shadow of two tones", analysis.Pair{LightnessDifference: -21.8, Tones: -2.2, Verdict: analysis.Apart},
			"B is 2.2 tones darker", "B 2.2 darker", "Two to three tones: a shadow that reads"},
		{"a light", analysis.Pair{LightnessDifference: 25, Tones: 2.5, Verdict: analysis.Apart},
			"B is 2.5 tones lighter", "B 2.5 lighter", "Two to three tones: a light that reads"},
		{"equal", analysis.Pair{Verdict: analysis.Same},
			"Same lightness", "Same lightness", "No difference in lightness"},
		{"within the tolerance", analysis.Pair{LightnessDifference: -1.4, Tones: -0.1, Verdict: analysis.Same},
			"Same lightness", "Same lightness", "Lightness differs by 1.4"},
		{"less than is printed", analysis.Pair{LightnessDifference: 0.02, Verdict: analysis.Same},
			"Same lightness", "Same lightness", "No difference in lightness"},
		{"close", analysis.Pair{LightnessDifference: 3, Tones: 0.3, Verdict: analysis.Close},
			"B is 0.3 tones lighter", "B 0.3 lighter", "Close: half a tone or less"},
		{"just over a strict tolerance", analysis.Pair{LightnessDifference: -0.55, Tones: -0.049, Verdict: analysis.Close},
			"B is under 0.1 tones darker", "B under 0.1 darker", "Close: half a tone or less"},
		{"one tone", analysis.Pair{LightnessDifference: -10, Tones: -1, Verdict: analysis.Apart},
			"B is 1.0 tones darker", "B 1.0 darker", "Under two tones: a soft step"},
		{"rounds up to two", analysis.Pair{LightnessDifference: -19.5, Tones: -1.96, Verdict: analysis.Apart},
			"B is 2.0 tones darker", "B 2.0 darker", "Two to three tones: a shadow that reads"},
		{"rounds down to three", analysis.Pair{LightnessDifference: -30.2, Tones: -3.04, Verdict: analysis.Apart},
			"B is 3.0 tones darker", "B 3.0 darker", "Two to three tones: a shadow that reads"},
		{"white on black", analysis.Pair{LightnessDifference: 100, Tones: 10, Verdict: analysis.Apart},
			"B is 10.0 tones lighter", "B 10.0 lighter", "Over three tones: a strong step"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := SayPair(tt.pair, "A", "B")
			for _, pair := range [][2]string{{got.Title, tt.title}, {got.Short, tt.short}, {got.Sub, tt.sub}} {
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
				got := SayPair(p, "A", "B")
				tones := analysis.AsPrinted(math.Abs(p.Tones))
				switch {
				case strings.HasPrefix(got.Sub, "Close") && tones > 0.5,
					strings.HasPrefix(got.Sub, "Under two") && tones >= 2,
					strings.HasPrefix(got.Sub, "Two to") && (tones < 2 || tones > 3),
					strings.HasPrefix(got.Sub, "Over") && tones <= 3,
					strings.Contains(got.Title, "darker") && b >= a,
					strings.Contains(got.Title, "lighter") && b <= a,
					strings.Contains(got.Title, " 0.0"),
					a == b && got.Title != "Same lightness":
					t.Fatalf("greys %d and %d, tolerance %g: %q, %q", a, b, tolerance, got.Title, got.Sub)
				}
			}
		}
	}
}

func TestSayRemark(t *testing.T) {
	for remark, want := range map[analysis.Remark]string{
		analysis.NoRemark:        "",
		analysis.ShowsDifference: "A grey layer would show these as different, though they are equally light",
		analysis.HidesDifference: "A grey layer would hide this difference",
	} {
		if got := SayRemark(remark); got != want {
			t.Errorf("remark %d: %q, want %q", remark, got, want)
		}
	}
}

func TestSayNoPair(t *testing.T) {
	if got := SayNoPair(""); got.Title != "Click a spot in the picture" || got.Short == "" || len(got.Bars) != 0 {
		t.Errorf("without spots: %+v", got)
	}
	if got := SayNoPair("A"); got.Title != "Click a second spot" || !strings.Contains(got.Sub, "A") {
		t.Errorf("with one spot: %+v", got)
	}
}

func TestSayCard(t *testing.T) {
	hue := 60.74
	spot := analysis.Spot{
		Colour: colour.RGB{R: 226, G: 171, B: 133}, Lightness: 74.14, Value: 7.26, LayerGrey: 183.1,
		Chroma: 31.44, Hue: &hue, SeenLightness: 79, Spread: 3.21, OnEdge: true,
	}
	got := SayCard("A", spot, SpotState{FromWhite: true, Selected: true})
	want := CardText{
		Name: "A", Colour: spot.Colour, Grey: colour.GreyOf(74.14), Hex: "#e2ab85",
		Lightness: "74.1", Value: "2.7", LayerGrey: "183", Chroma: "31.4", Hue: "60.7",
		Note: "lies on an edge", Seen: "looks a little lighter than its grey", SeenShort: "looks a little lighter",
		Selected: true,
	}
	if got != want {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

func TestSayNote(t *testing.T) {
	for _, tt := range []struct {
		state  SpotState
		onEdge bool
		want   string
	}{
		{SpotState{}, false, ""},
		{SpotState{}, true, "lies on an edge"},
		{SpotState{Area: true}, false, "area, spread 3.2"},
		{SpotState{Area: true}, true, "area, spread 3.2"}, // an area is expected to hold edges
		{SpotState{Moved: true, Area: true}, true, "picture moved"},
	} {
		if got := sayNote(analysis.Spot{OnEdge: tt.onEdge, Spread: 3.21}, tt.state); got != tt.want {
			t.Errorf("%+v, on an edge %v: %q, want %q", tt.state, tt.onEdge, got, tt.want)
		}
	}
}

// Limits of the hint: 3 and 8 (common practice, no source).
func TestSaySeen(t *testing.T) {
	for added, want := range map[float64]string{
		0: "", 2.9: "", 3: "looks a little lighter", 7.9: "looks a little lighter", 8.5: "looks clearly lighter",
	} {
		long, short := SaySeen(analysis.Spot{Lightness: 50, SeenLightness: 50 + added})
		if short != want || long != "" && long != want+" than its grey" {
			t.Errorf("%g lighter: %q, %q, want %q", added, long, short, want)
		}
	}
}

func TestSayGroups(t *testing.T) {
	groups := func(named ...any) []analysis.Group {
		var all []analysis.Group
		for i := 0; i < len(named); i += 2 {
			all = append(all, analysis.Group{Name: named[i].(string), Share: named[i+1].(float64)})
		}
		return all
	}
	for _, tt := range []struct {
		groups []analysis.Group
		gaps   []float64
		want   string
	}{
		{nil, nil, "Nothing is counted"},
		{groups("dark", 1.0), nil, "One tone: dark"},
		{groups("dark", 0.09, "middle", 0.61, "light", 0.30), []float64{2.3, 1.1},
			"Mostly middle, a little dark: 61 % middle, 30 % light, 9 % dark; dark and middle are 2.3 tones apart, middle and light 1.1"},
		{groups("dark", 1.0, "light", 0.0), []float64{math.NaN()}, "All of it is dark"},
		{groups("dark", 0.07, "middle", 0.86, "light", 0.07), []float64{2, 3},
			"Mostly middle, a little dark and light: 86 % middle, 7 % dark, 7 % light; dark and middle are 2.0 tones apart, middle and light 3.0"},
		{groups("dark", 0.90, "light", 0.10), []float64{4}, "Mostly dark, a little light: 90 % dark, 10 % light; dark and light are 4.0 tones apart"},
		{groups("dark", 0.24, "middle", 0.41, "light", 0.35), []float64{1, 2},
			"More middle than light: 41 % middle, 35 % light, 24 % dark; dark and middle are 1.0 tones apart, middle and light 2.0"},
		{groups("dark", 0.49, "light", 0.51), []float64{3}, "About as much light as dark: 51 % light, 49 % dark; dark and light are 3.0 tones apart"},
		{groups("dark", 0.7, "dark middle", 0.05, "light middle", 0.004, "light", 0.246), []float64{1, 2, 3},
			"Mostly dark, a little dark middle and light middle: 70 % dark, 25 % light, 5 % dark middle, <1 % light middle; " +
				"dark and dark middle are 1.0 tones apart, dark middle and light middle 2.0, light middle and light 3.0"},
	} {
		if got := strings.ReplaceAll(SayGroups(tt.groups, tt.gaps), Nbsp, " "); got != tt.want {
			t.Errorf("says %q, want %q", got, tt.want)
		}
	}
}

func TestSayGround(t *testing.T) {
	for ground, want := range map[analysis.Ground]string{
		analysis.GroundCounted: "The whole picture counts",
		analysis.GroundLeftOut: "Without the ground, which is 62 % of what counts",
		analysis.NoGround:      "No blank ground runs round the frame: the whole picture counts",
		analysis.OnlyGround:    "There is hardly more than the ground: the whole picture counts",
	} {
		if got := strings.ReplaceAll(SayGround(ground, 0.62), Nbsp, " "); got != want {
			t.Errorf("says %q, want %q", got, want)
		}
	}
}

func TestSayStatus(t *testing.T) {
	for _, tt := range []struct {
		state       capture.State
		frozen      bool
		full, short string
	}{
		{capture.Waiting, false, "Waiting for a picture", "Waiting"},
		{capture.Live, false, "Live", "Live"},
		{capture.Unchanged, false, "Unchanged for 10 s", "Unchanged"},
		{capture.Hidden, false, "Hidden for 10 s", "Hidden"},
		{capture.Gone, false, "Gone for 10 s", "Gone"},
		{capture.NotAnswering, false, "Not answering for 10 s", "Not answering"},
		{capture.NotAnswering, true, "Frozen, 10 s old", "Frozen"},
		{capture.State(99), false, "State unknown", "Unknown"},
	} {
		full, short := SayStatus(tt.state, tt.frozen, 12*time.Second)
		if strings.ReplaceAll(full, Nbsp, " ") != tt.full || short != tt.short {
			t.Errorf("%v, frozen %v: %q, %q", tt.state, tt.frozen, full, short)
		}
	}
	if got := strings.ReplaceAll(SaySource(1280, 720, 10), Nbsp, " "); got != "1280 × 720 · 10 a second" {
		t.Errorf("source line %q", got)
	}
}
