package wording

import (
	"slices"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// What is said of forms: of one alone without the colours that its local colour has already, of
// several where each lies and what its own are.
func TestSayForms(t *testing.T) {
	accent := analysis.SpotOf(colour.RGB{R: 0x23, G: 0x72, B: 0x5b})
	line := families.Line{Spot: analysis.SpotOf(colour.RGB{R: 0x10, G: 0x20, B: 0x49}), TonesBelow: 4.3}
	edge := &families.FormEdge{Length: 0.4, AccentShare: 0.62, Accent: &accent, LeavesShare: 0.2, Leaves: []families.Stretch{
		{Length: 0.06, Difference: new(-8.0)}, {Length: 0.02, Difference: new(-4.0)},
	}}
	whole := &families.FormEdge{Length: 0.4, AccentShare: 0.97, Accent: &accent}
	gone := &families.FormOutline{Length: 1, LineShare: 0.76, VanishesLight: 0.23, VanishesDark: 0.01, Line: &line}
	both := &families.FormOutline{Length: 1, LineShare: 0.5, VanishesLight: 0.3, VanishesDark: 0.2, Line: &line}
	round := &families.FormOutline{Length: 1, LineShare: 0.99, VanishesDark: 0.01, Line: &line}
	none := &families.FormOutline{Length: 1, LineShare: 0.1}
	of := families.Family{Accent: &families.Accent{Spot: accent}, Line: &line}
	for name, tt := range map[string]struct {
		of          families.Family
		forms       []families.Form
		want        []string
		full, short string
	}{
		"nothing": {of, nil, nil, "", ""},
		"neither": {of, []families.Form{{Edge: &families.FormEdge{Length: 1}, Outline: none}}, nil, "", ""},
		"one": {of, []families.Form{{Edge: edge, Outline: gone}},
			[]string{"accent along 62 % of the edge, 7.0 darker than the nearer side along 20 %; line vanishes along 24 % of the outline, in the light"},
			"Accent along 62 % of the edge, darker along 20 %; line vanishes along 24 %", "Accent 62 %, darker 20 %; line gone 24 %"},
		"all of one": {of, []families.Form{{Edge: whole, Outline: round}}, []string{"accent along the whole edge; line all round"},
			"Accent along the whole edge; line all round", "Accent 97 %; line all round"},
		"of none of its own": {families.Family{}, []families.Form{{Edge: whole, Outline: both}},
			[]string{"accent #23725b along the whole edge; blue line #102049, 4.3 tones below the fill, vanishes along 50 % of the outline, 30 % in the light and 20 % in the shadow"},
			"Accent along the whole edge; line vanishes along 50 %", "Accent 97 %; line gone 50 %"},
		"several": {of, []families.Form{{X: 0.2, Y: 0.2, Edge: edge}, {X: 0.9, Y: 0.5}, {X: 0.9, Y: 0.9, Outline: round}},
			[]string{"form at the upper left: accent #23725b along 62 % of the edge, 7.0 darker than the nearer side along 20 %",
				"form at the lower right: blue line #102049, 4.3 tones below the fill, all round"},
			"Accent along 62 % of the edge, darker along 20 %; line all round", "Accent 62 %, darker 20 %; line all round"},
	} {
		var got []string
		for _, line := range SayForms(tt.of, tt.forms) {
			got = append(got, strings.ReplaceAll(line, Nbsp, " "))
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: %q, want %q", name, got, tt.want)
		}
		full, short := SayPointed(tt.forms)
		if strings.ReplaceAll(full, Nbsp, " ") != tt.full || strings.ReplaceAll(short, Nbsp, " ") != tt.short {
			t.Errorf("%s: %q and %q, want %q and %q", name, full, short, tt.full, tt.short)
		}
	}
}
