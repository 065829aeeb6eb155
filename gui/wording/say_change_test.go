package wording

import (
	"math"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills"
)

func TestSayChange(t *testing.T) {
	dark := analysis.GroupChange{Name: "dark", Tones: -0.9}
	tests := []struct {
		name   string
		change analysis.Change
		want   string
	}{
		{"the example of the plan", analysis.Change{
			Counted: 100, Groups: []analysis.GroupChange{dark, {Name: "middle", Tones: 0.04}, {Name: "light"}},
			Gaps:  []analysis.GapShift{{Darker: "dark", Lighter: "middle", Before: 1.2, After: 2.1}, {Darker: "middle", Lighter: "light", Before: 2, After: 2.04}},
			Moves: []analysis.Move{{From: "middle", To: "dark", Share: 0.11}, {From: "light", To: "middle", Share: 0.004}},
		}, "Dark group 0.9 tones darker, gap between dark and middle from 1.2 to 2.1, 11 % of the picture went from middle to dark"},
		{"several moves", analysis.Change{Counted: 1, Moves: []analysis.Move{{From: "dark", To: "light", Share: 0.2}, {From: "light", To: "dark", Share: 0.1}}},
			"20 % of the picture went from dark to light, 10 % from light to dark"},
		{"a gap that is gone", analysis.Change{Counted: 1, Gaps: []analysis.GapShift{{Darker: "dark", Lighter: "light", Before: 3, After: math.NaN()}}},
			"Gap between dark and light gone"},
		{"no change as printed", analysis.Change{Counted: 1, Groups: []analysis.GroupChange{{Name: "dark", Tones: -0.04}}}, "No change in lightness"},
		{"nothing", analysis.Change{}, "Nothing is counted in both"},
	}
	for _, tt := range tests {
		if got := strings.ReplaceAll(SayChange(&tt.change), Nbsp, " "); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

// The plan's example, of a picture: greys whose values lie 0.9 below, and 1.2 and 2.1 above
// (ASTM D1535), and 11 of 100 columns that go from the middle grey to the dark one.
func TestSayChangeOfAPicture(t *testing.T) {
	columns := func(until [3]int, greys [4]uint8) analysis.Pixels {
		p := analysis.Pixels{Pix: make([]byte, 4*100), Stride: 400, Width: 100, Height: 1}
		for x := range 100 {
			i := 0
			for i < 3 && x >= until[i] {
				i++
			}
			copy(p.Pix[4*x:], []byte{greys[i], greys[i], greys[i], 255})
		}
		return p
	}
	until := [3]int{30, 41, 70}
	before, after := columns(until, [4]uint8{29, 53, 53, 220}), columns(until, [4]uint8{5, 5, 53, 220})
	c, err := analysis.ChangeOf(before, after, nil, nil, 3)
	if err != nil {
		t.Fatal(err)
	}
	const want = "Dark group 0.9 tones darker, gap between dark and middle from 1.2 to 2.1, 11 % of the picture went from middle to dark"
	if got := plainSay(SayChange(c)); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestSayAlignment(t *testing.T) {
	p := analysis.Pixels{Width: 40, Height: 30}
	for want, a := range map[string]stills.Aligned{
		"": {How: stills.SamePixels, Before: p},
		"They show different parts of one place: the 40 × 30 pixels that both show are compared":         {How: stills.ByPosition, Before: p},
		"Their sizes differ: both are brought to 40 × 30 pixels":                                         {How: stills.Scaled, Before: p},
		"Their sizes and shapes differ: both are brought to 40 × 30 pixels, which stretches one of them": {How: stills.Scaled, Stretched: true, Before: p},
	} {
		if got := strings.ReplaceAll(SayAlignment(a), Nbsp, " "); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestSayProblem(t *testing.T) {
	for want, p := range map[string]stills.Problem{
		`Can't open the still "x": it is damaged; it was set aside as it is, in "/s/damaged/x".`:       {ID: "x", Err: stills.ErrDamaged, Aside: "/s/damaged/x"},
		`Can't open the still "x": it is damaged; it could not be set aside and lies where it was.`:    {ID: "x", Err: stills.ErrDamaged},
		`Can't open the still "x": it is from a newer Tonedesk; open it with that; it stays as it is.`: {ID: "x", Err: stills.ErrNewer},
	} {
		if got := SayProblem(p); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

func TestSayKeyFigures(t *testing.T) {
	murk := 0.14
	if got := plainSay(SayKeyFigures(stills.Figures{Gaps: []float64{2.46, 1.95}, Murk: &murk})); got != "2.5 and 2.0 tones apart, murk 14 %" {
		t.Errorf("%q", got)
	}
	share := 0.6
	if got := plainSay(SayKeyFigures(stills.Figures{Gaps: []float64{2.46}, GroundShare: &share})); got != "2.5 tones apart without the ground" {
		t.Errorf("without the ground: %q", got)
	}
	if got := SayKeyFigures(stills.Figures{}); got != "" {
		t.Errorf("%q", got)
	}
}

// plainSay returns a text with ordinary spaces.
func plainSay(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }
