package widgets

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// spotColours are those of a face in light and shadow, hair, a meadow and a sun.
var spotColours = []string{"#f0be95", "#c76d5d", "#ac5e37", "#407c81", "#fbf0d6", "#808080", "#000000", "#ffffff"}

// spotsOf are the first so many spots, the last selected.
func spotsOf(n int) (state SpotsState, marks []SpreadMark) {
	var spots []analysis.Spot
	for i := range n {
		c, err := colour.Parse(spotColours[i])
		if err != nil {
			panic(err)
		}
		s, name := analysis.SpotOf(c), string(rune('A'+i))
		text := wording.SaySpotText(name, s, wording.SpotState{Selected: i == n-1})
		if spots = append(spots, s); i > 0 {
			text.FromFirst = wording.SayValueDifference(spots[0], s, false)
		}
		state.Texts = append(state.Texts, text)
		marks = append(marks, SpreadMark{Name: name, Lightness: s.Lightness})
	}
	if n > 1 {
		state.Differences = wording.SayDifferences(spots[0], spots[1], false)
	}
	state.Remark = wording.SaySpotRemark(state.Texts[:min(n, 2)], spots[:min(n, 2)])
	for n := n; n < 2; n++ {
		state.Texts = append(state.Texts, wording.SayEmptySpot(string(rune('A'+n))))
	}
	return state, marks
}

// fourGroups is a spread with four groups.
func fourGroups(marks []SpreadMark) SpreadState {
	s := scene()
	s.Marks = marks
	s.Groups = []analysis.Group{
		{Name: "dark", From: 0, To: 41.4, Share: 0.21}, {Name: "dark middle", From: 41.4, To: 64.1, Share: 0.23},
		{Name: "light middle", From: 64.1, To: 81.8, Share: 0.34}, {Name: "light", From: 81.8, To: 100, Share: 0.22},
	}
	return s
}
