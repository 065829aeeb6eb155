package wording

import (
	"cmp"
	"math"
	"slices"
	"strconv"
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
		return "One tone: " + groups[0].Name
	}
	by := slices.DeleteFunc(slices.Clone(groups), func(g analysis.Group) bool { return g.Share == 0 }) // borders set by hand may leave one empty
	if len(by) == 1 {
		return "All of it is " + by[0].Name
	}
	slices.SortStableFunc(by, func(a, b analysis.Group) int { return cmp.Compare(b.Share, a.Share) })
	said := groupWords(by) + ": " + groupFigures(by, groups)
	if apart := gapFigures(groups, gaps); apart != "" {
		said += "; " + apart
	}
	return said
}

// SayGround says what groups are of; share is the ground's of the picture, 0 to 1.
func SayGround(g analysis.Ground, share float64) string {
	switch g {
	case analysis.GroundLeftOut:
		return "Without the ground, which is " + Percent(share) + " of what counts"
	case analysis.NoGround:
		return "No blank ground runs round the frame: the whole picture counts"
	case analysis.OnlyGround:
		return "There is hardly more than the ground: the whole picture counts"
	}
	return "The whole picture counts"
}

// groupWords takes the groups from the largest to the smallest.
func groupWords(by []analysis.Group) string {
	first, second := by[0], by[1]
	var words string
	switch {
	case first.Share-second.Share <= aboutOff:
		words = "About as much " + first.Name + " as " + second.Name
	case first.Share >= mostly:
		words = "Mostly " + first.Name
	default:
		words = "More " + first.Name + " than " + second.Name
	}
	var few []string
	for _, g := range by[1:] {
		if g.Share <= aLittle && !strings.Contains(words, g.Name) {
			few = append(few, g.Name)
		}
	}
	if len(few) > 0 {
		words += ", a little " + strings.Join(few, " and ")
	}
	return words
}

// groupFigures lists the shares of some groups of all.
func groupFigures(some, all []analysis.Group) string {
	shares := GroupShares(all)
	parts := make([]string, len(some))
	for i, g := range some {
		at := slices.IndexFunc(all, func(o analysis.Group) bool { return o.Name == g.Name })
		parts[i] = shares[at] + Nbsp + unbroken(g.Name)
	}
	return strings.Join(parts, ", ")
}

// gapFigures lists the gaps from dark to light; the unit is said once.
func gapFigures(groups []analysis.Group, gaps []float64) string {
	var parts []string
	for i, gap := range gaps {
		if math.IsNaN(gap) {
			continue // beside an empty group
		}
		pair := unbroken(groups[i].Name) + " and " + unbroken(groups[i+1].Name) + " "
		if len(parts) == 0 {
			parts = append(parts, pair+"are "+SayTones(gap)+" apart")
		} else {
			parts = append(parts, pair+Tenth(gap))
		}
	}
	return strings.Join(parts, ", ")
}

func unbroken(words string) string { return strings.ReplaceAll(words, " ", Nbsp) }

// SaySmall says what becomes of the gaps between groups when the picture's longer side is
// made so many pixels.
func SaySmall(longer int, groups []analysis.Group, changes []analysis.GapChange) string {
	var parts []string
	for i, c := range changes {
		if i+1 >= len(groups) {
			break
		}
		pair := unbroken(groups[i].Name) + " and " + unbroken(groups[i+1].Name) + " "
		if math.IsNaN(c.Small) {
			parts = append(parts, pair+"become one")
			continue
		}
		if Tenth(c.Small) != Tenth(c.Whole) {
			parts = append(parts, pair+SayTones(c.Small)+" apart instead of "+Tenth(c.Whole))
		}
	}
	if len(parts) == 0 {
		parts = []string{"the groups stay as far apart"}
	}
	return "At " + strconv.Itoa(longer) + Nbsp + "pixels: " + strings.Join(parts, ", ") + "."
}

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
		parts = append(parts, Percent(math.Abs(g.More))+Nbsp+word+" "+unbroken(g.Name))
	}
	if len(parts) == 0 {
		return "Shared as in the target"
	}
	return Capitalised(strings.Join(parts, ", "))
}

// wholePercent returns the size of a difference of shares as it is printed.
func wholePercent(more float64) int { return int(math.Round(100 * math.Abs(more))) }

// SayTargetDistance says how far a picture's spread is from its target's.
func SayTargetDistance(m analysis.Match) string {
	if math.IsNaN(m.Distance) {
		return "The spread can't be compared with the target's"
	}
	return SayTones(m.Distance) + " from it on average"
}
