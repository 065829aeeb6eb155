package live

import (
	"app.tonedesk/analysis"
	"app.tonedesk/gui/setup"
)

// PairOf returns the two spots that are compared: A, and the selected one or else B. ok says
// whether both can be read.
func PairOf(spots []Reading, selected int) (a, b int, ok bool) {
	a, b = 0, 1
	if selected > 1 {
		b = selected
	}
	ok = b < len(spots) && spots[a].Err == nil && spots[b].Err == nil
	return a, b, ok
}

// BaseOf returns the colour from which others are proposed, with its name: one that was typed
// or taken, else the selected spot, else B or, without it, A.
func BaseOf(s setup.Setup, spots []Reading, selected int) (base analysis.Spot, name string, ok bool) {
	if s.Typed != nil {
		return analysis.SpotOf(*s.Typed), "the colour chosen", true
	}
	if selected < 0 {
		selected = min(len(spots), 2) - 1 // B, else A
	}
	if selected < 0 || selected >= len(spots) || spots[selected].Err != nil {
		return analysis.Spot{}, "", false
	}
	return spots[selected].Spot, "spot " + setup.SpotName(selected), true
}
