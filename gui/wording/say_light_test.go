package wording

import (
	"slices"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
)

// What is said of pictures in one light, by hand; our choice of words.
func TestSayLight(t *testing.T) {
	pair := func(red, green, blue, r, g, b float64) families.Family {
		f := families.Of(analysis.SpotOfLight(red, green, blue), analysis.SpotOfLight(red*r, green*g, blue*b), families.DefaultRules())
		f.Share = new(0.1)
		return f
	}
	same := []families.Family{pair(0.75, 0.4, 0.24, 0.2, 0.25, 0.4), pair(0.3, 0.55, 0.2, 0.2, 0.25, 0.4), pair(0.25, 0.3, 0.7, 0.2, 0.25, 0.4)}
	odd := append(slices.Clone(same), pair(0.8, 0.7, 0.3, 0.06, 0.06, 0.06))
	many := []families.Family{same[0], pair(0.3, 0.55, 0.2, 0.7, 0.5, 0.4)}
	for _, tt := range []struct {
		list  []families.Family
		title string
		lines []string // how each begins
	}{
		{nil, "no local colour tells of the light", nil},
		{same[:1], "one local colour alone, beside which none can disagree", []string{"shadows ", "white would be #"}},
		{same, "one light: all shadows agree", []string{"shadows ", "white would be #"}},
		{odd, "one light: 75 % of the local colours, by size, agree", []string{"shadows ", "white would be #", odd[3].Light.Colour.Hex() + " disagrees: "}},
		{many, "no one light: the shadows don't agree", []string{"shadows "}},
	} {
		l := light.Of(&families.Found{List: tt.list}, nil, light.DefaultOptions())
		said := SayLight(l, tt.list)
		if got := strings.ReplaceAll(said.Title, Nbsp, " "); got != tt.title || len(said.Lines) != len(tt.lines) {
			t.Errorf("%q, want %q; %q", got, tt.title, said.Lines)
			continue
		}
		for i, line := range said.Lines {
			if !strings.HasPrefix(line, tt.lines[i]) {
				t.Errorf("%q, want %q", line, tt.lines[i])
			}
		}
	}
	l := light.Of(&families.Found{List: odd}, nil, light.DefaultOptions())
	if line := SayLight(l, odd).Lines[2]; !strings.Contains(line, "deeper than the others") || !strings.Contains(line, "straight toward black") {
		t.Errorf("%q", line)
	}
}

// Where light comes from, in words: eighths of the circle, each half of one to both sides.
func TestSayFrom(t *testing.T) {
	for degrees, want := range map[float64]string{
		0: "from the right", 22: "from the right", 23: "from the upper right", 90: "from above", 135: "from the upper left",
		180: "from the left", 270: "from below", 315: "from the lower right", 359.9: "from the right",
	} {
		if got := sayFrom(degrees); got != want {
			t.Errorf("%g: %s, want %s", degrees, got, want)
		}
	}
	for change, want := range map[light.Change]string{
		{}: "the picture's own", {Warmer: 50}: "50 mired warmer", {Warmer: -50, Deeper: 0.5}: "50 mired cooler, shadows 0.5 tones deeper", {Deeper: -1}: "shadows 1.0 tones shallower",
	} {
		if got := strings.ReplaceAll(SayRelight(change), Nbsp, " "); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
