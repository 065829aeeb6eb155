package wording

import (
	"math"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// pairOf is a pair of greys by their lightness alone.
func pairOf(a, b, tolerance float64) analysis.Pair {
	spot := func(l float64) analysis.Spot { return analysis.Spot{Lightness: l, Value: colour.Value(l)} }
	return analysis.Compare(spot(a), spot(b), tolerance)
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
