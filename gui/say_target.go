package gui

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
	slices.SortStableFunc(by, func(a, b analysis.GroupMatch) int {
		switch d := math.Abs(b.More) - math.Abs(a.More); {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	var parts []string
	for _, g := range by {
		if percent := math.Round(100 * math.Abs(g.More)); percent > 0 {
			word := "more"
			if g.More < 0 {
				word = "less"
			}
			parts = append(parts, Percent(math.Abs(g.More))+nbsp+word+" "+strings.ReplaceAll(g.Name, " ", nbsp))
		}
	}
	if len(parts) == 0 {
		return "Shared as in the target"
	}
	return "You have " + strings.Join(parts, ", ")
}

// SayTargetDistance says how far a picture's spread is from its target's.
func SayTargetDistance(m analysis.Match) string {
	if math.IsNaN(m.Distance) {
		return "The spread can't be compared with the target's"
	}
	return "On average " + Tenth(m.Distance) + nbsp + "tones from the target"
}
