package gui

import (
	"cmp"
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

// SayGroups says how a picture's lightness is shared, first in words, then in figures with
// the largest share first, and how many tones neighbours are apart.
func SayGroups(groups []analysis.Group, gaps []float64) string {
	switch len(groups) {
	case 0:
		return "Nothing is counted"
	case 1:
		return "One lightness only: " + groups[0].Name
	}
	by := slices.Clone(groups)
	slices.SortStableFunc(by, func(a, b analysis.Group) int { return cmp.Compare(b.Share, a.Share) })
	return groupWords(by) + ": " + groupFigures(by) + "; " + gapFigures(groups, gaps)
}

// groupWords takes the groups from the largest to the smallest.
func groupWords(by []analysis.Group) string {
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

// groupFigures lists the shares.
func groupFigures(groups []analysis.Group) string {
	parts := make([]string, len(groups))
	for i, g := range groups {
		parts[i] = Percent(g.Share) + nbsp + unbroken(g.Name)
	}
	return strings.Join(parts, ", ")
}

// gapFigures lists the gaps from dark to light; the unit is said once.
func gapFigures(groups []analysis.Group, gaps []float64) string {
	parts := make([]string, len(gaps))
	for i, gap := range gaps {
		pair := unbroken(groups[i].Name) + " and " + unbroken(groups[i+1].Name) + " "
		parts[i] = pair + Tenth(gap)
		if i == 0 {
			parts[i] = pair + "are " + Tenth(gap) + nbsp + "tones apart"
		}
	}
	return strings.Join(parts, ", ")
}

func unbroken(words string) string { return strings.ReplaceAll(words, " ", nbsp) }
