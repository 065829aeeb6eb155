package wording

import (
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills/notes"
)

func groupsOf(shares ...float64) (groups []analysis.Group) {
	names := [][]string{nil, {"middle"}, {"dark", "light"}, {"dark", "middle", "light"}, {"dark", "dark middle", "light middle", "light"}}[len(shares)]
	for i, share := range shares {
		groups = append(groups, analysis.Group{Name: names[i], Share: share})
	}
	return groups
}

func TestSayLeader(t *testing.T) {
	for _, tt := range []struct {
		name, title, short, right string
		groups                    []analysis.Group
		key                       analysis.Key
	}{
		{"a leader", "Light middle leads", "Light middle", "34 %, high key", groupsOf(0.21, 0.23, 0.34, 0.22), analysis.HighKey},
		{"most of it", "Mostly light", "Mostly light", "50 %, middle key", groupsOf(0.2, 0.3, 0.5), analysis.MiddleKey},
		{"just short of it", "Light leads", "Light", "49 %, middle key", groupsOf(0.2, 0.31, 0.49), analysis.MiddleKey},
		{"two as large", "No group leads", "No group leads", "low key", groupsOf(0.38, 0.35, 0.27), analysis.LowKey},
		{"one", "All of it is middle", "All middle", "middle key", groupsOf(1), analysis.MiddleKey},
		{"one empty", "All of it is dark", "All dark", "low key", groupsOf(1, 0), analysis.LowKey},
		{"nothing", "Nothing is counted", "Nothing counted", "", nil, ""},
	} {
		got := SayLeader(tt.groups, tt.key)
		if plainSpaces(got.Title) != tt.title || got.Short != tt.short || plainSpaces(got.Right) != tt.right {
			t.Errorf("%s: %+v", tt.name, got)
		}
	}
}

func TestSayOverall(t *testing.T) {
	for _, tt := range []struct {
		name, title, short, right string
		change                    *analysis.Change
	}{
		{"darker", "0.4 tones darker overall", "0.4 tones darker", "17 % changed", &analysis.Change{Counted: 9, Tones: -0.41, Altered: 0.17}},
		{"lighter", "1.0 tones lighter overall", "1.0 tones lighter", "100 % changed", &analysis.Change{Counted: 9, Tones: 1, Altered: 1}},
		{"nothing", "No change in lightness", "No change", "", &analysis.Change{Counted: 9}},
		{"a shift that is not seen", "No change in lightness", "No change", "", &analysis.Change{Counted: 9, Tones: 0.04}},
		{"up and down", "As light as before overall", "As light overall", "30 % changed", &analysis.Change{Counted: 9, Altered: 0.3}},
		{"nothing counts", "Nothing is counted in both", "Nothing in both", "", &analysis.Change{Tones: math.NaN(), Altered: math.NaN()}},
		{"not yet", "Comparing", "Comparing", "", nil},
	} {
		got := SayOverall(tt.change)
		if plainSpaces(got.Title) != tt.title || plainSpaces(got.Short) != tt.short || plainSpaces(got.Right) != tt.right {
			t.Errorf("%s: %+v", tt.name, got)
		}
	}
}

func TestSayToolStep(t *testing.T) {
	spot := func(l float64) *analysis.Spot { return &analysis.Spot{Lightness: l} }
	for _, tt := range []struct {
		name, tool, title, short, right string
		measured                        notes.Measured
	}{
		{"nothing painted", "shadow", "Paint the light, then the shadow", "Paint light, shadow", "", notes.Measured{}},
		{"the light", "light", "Now paint the shadow", "Paint the shadow", "", notes.Measured{Light: spot(80)}},
		{"the shadow", "light", "Now paint the light", "Paint the light", "", notes.Measured{Shadow: spot(50)}},
		{"both", "shadow", "Shadow 2.5 tones darker", "Shadow 2.5 darker", "reads", notes.Measured{Light: spot(80), Shadow: spot(56), Tones: 2.5}},
		{"a soft step", "light", "Shadow 0.5 tones darker", "Shadow 0.5 darker", "a soft step", notes.Measured{Light: spot(60), Shadow: spot(55), Tones: 0.5}},
		{"the wrong way", "light", "Shadow 0.5 tones lighter", "Shadow 0.5 lighter", "", notes.Measured{Light: spot(50), Shadow: spot(55), Tones: -0.5}},
		{"alike", "light", "Light and shadow alike", "Both alike", "", notes.Measured{Light: spot(50), Shadow: spot(50)}},
		{"another tool", "ring", "Draw a ring round it", "Draw a ring", "", notes.Measured{Light: spot(50)}},
	} {
		got := SayToolStep(tt.tool, tt.measured)
		if plainSpaces(got.Title) != tt.title || plainSpaces(got.Short) != tt.short || got.Right != tt.right {
			t.Errorf("%s: %+v", tt.name, got)
		}
	}
}

func TestSaySelectedNote(t *testing.T) {
	for _, tt := range []struct {
		icon, title, short string
		shape              notes.Shape
	}{
		{"arrow", "Arrow 2", "Arrow 2", notes.Arrow{}},
		{"spot", "Spot 2 is value 5.5", "Spot value 5.5", notes.Spot{Reading: analysis.Spot{Value: 5.51}}},
		{"light", "Now paint the shadow", "Paint the shadow", notes.Area{}},
	} {
		got := SayNote(2, tt.icon, tt.shape, notes.Measured{Light: &analysis.Spot{Lightness: 80}}, false)
		if plainSpaces(got.Title) != tt.title || plainSpaces(got.Short) != tt.short {
			t.Errorf("%s: %+v", tt.icon, got)
		}
	}
}
