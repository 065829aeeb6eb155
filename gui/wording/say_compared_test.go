package wording

import (
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills"
)

func TestSayCompared(t *testing.T) {
	change := &analysis.Change{Counted: 1, Distance: 0.84, Groups: []analysis.GroupChange{{Name: "dark", Tones: -0.9}}}
	p := analysis.Pixels{Width: 40, Height: 30}
	place := stills.Aligned{How: stills.ByPosition, Before: p}
	for _, tt := range []struct {
		compared Compared
		want     []string // parts, in this order
	}{
		{Compared{With: "Head"}, []string{"Comparing with Head."}},
		{Compared{With: "Head", Change: change}, []string{"Compared with Head: Shadows 0.9 tones darker. On average 0.8 tones moved."}},
		{Compared{With: "Head", Change: change, Aligned: place},
			[]string{"moved. They show different parts of one place: ", " compared. Where there is no picture from before, that of now shows."}},
		{Compared{With: "Head", Change: change, Aligned: place, AsMap: true}, []string{" compared. In the map middle grey is no change, "}},
	} {
		got := strings.ReplaceAll(SayCompared(tt.compared), Nbsp, " ")
		rest := got
		for _, part := range tt.want {
			_, after, ok := strings.Cut(rest, part)
			if !ok {
				t.Fatalf("%q lacks %q", got, part)
			}
			rest = after
		}
		if tt.compared.AsMap != strings.Contains(got, "In the map") || tt.compared.AsMap && strings.Contains(got, "that of now shows") {
			t.Errorf("as a map %v it says %q", tt.compared.AsMap, got)
		}
	}
}

func TestMapFigures(t *testing.T) {
	if got := MapFigures(5); got != [3]string{"\u22125", "0", "+5" + Nbsp + "tones"} {
		t.Errorf("the scale says %q", got)
	}
}
