package gui

import (
	"slices"
	"strings"

	"app.tonedesk/analysis"
)

// Shares at which the sentence on a picture's groups changes its words (common practice,
// no source).
const (
	mostly   = 0.5  // one group from here on is most of the picture
	aLittle  = 0.15 // up to here a group is only a little
	aboutOff = 0.05 // groups whose shares differ by no more have about as much
)

// SayGroups says how a picture's lightness is shared, first in words, then in figures.
func SayGroups(groups []analysis.Group) string {
	switch len(groups) {
	case 0:
		return "Nothing is counted"
	case 1:
		return "One lightness only: " + groups[0].Name
	}
	return groupWords(groups) + ": " + groupFigures(groups)
}

func groupWords(groups []analysis.Group) string {
	by := slices.Clone(groups)
	slices.SortStableFunc(by, func(a, b analysis.Group) int {
		switch {
		case a.Share > b.Share:
			return -1
		case a.Share < b.Share:
			return 1
		}
		return 0
	})
	first, second, last := by[0], by[1], by[len(by)-1]
	var words string
	switch {
	case first.Share-second.Share <= aboutOff:
		words = "About as much " + first.Name + " as " + second.Name
	case first.Share >= mostly:
		words = "Mostly " + first.Name
	default:
		words = "More " + first.Name + " than " + second.Name
	}
	if last.Share <= aLittle && last.Name != second.Name || len(by) == 2 && last.Share <= aLittle {
		words += ", a little " + last.Name
	}
	return words
}

// groupFigures lists the shares from dark to light.
func groupFigures(groups []analysis.Group) string {
	parts := make([]string, len(groups))
	for i, g := range groups {
		parts[i] = strings.ReplaceAll(g.Name, " ", nbsp) + nbsp + Percent(g.Share)
	}
	return strings.Join(parts, ", ")
}
