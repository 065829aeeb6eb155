package wording

import (
	"math"
	"slices"
	"strings"

	"app.tonedesk/analysis"
)

// SayTarget says how a picture stands to its target: what it has more and less of, the
// largest difference first, in whole percent of the picture.
func SayTarget(m analysis.Match) string {
	by := slices.Clone(m.Groups())
	if len(by) == 0 {
		return "Nothing to compare with the target"
	}
	if len(by) == 1 {
		return "The target is of one lightness: it has no shares to match"
	}
	slices.SortStableFunc(by, func(a, b analysis.GroupMatch) int {
		return wholePercent(b.More) - wholePercent(a.More)
	})
	var parts []string
	for _, g := range by {
		if wholePercent(g.More) == 0 {
			continue
		}
		word := "more"
		if g.More < 0 {
			word = "less"
		}
		parts = append(parts, Percent(math.Abs(g.More))+Nbsp+word+" "+strings.ReplaceAll(g.Name, " ", Nbsp))
	}
	if len(parts) == 0 {
		return "Shared as in the target"
	}
	return "By the target's edges you have " + strings.Join(parts, ", ")
}

// wholePercent returns the size of a difference of shares as it is printed.
func wholePercent(more float64) int { return int(math.Round(100 * math.Abs(more))) }

// SayTargetDistance says how far a picture's spread is from its target's.
func SayTargetDistance(m analysis.Match) string {
	if math.IsNaN(m.Distance) {
		return "The spread can't be compared with the target's"
	}
	return "On average " + SayTones(m.Distance) + " from the target"
}
