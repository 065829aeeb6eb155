package wording

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
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
		return language.Say("Nothing is counted")
	case 1:
		return language.Say("One tone: %s", language.Name(groups[0].Name))
	}
	by := slices.DeleteFunc(slices.Clone(groups), func(g analysis.Group) bool { return g.Share == 0 }) // borders set by hand may leave one empty
	if len(by) == 1 {
		return language.Say("All of it is %s", language.Name(by[0].Name))
	}
	slices.SortStableFunc(by, func(a, b analysis.Group) int { return cmp.Compare(b.Share, a.Share) })
	said := language.Say("%s: %s¦figures", groupWords(by), groupFigures(by, groups))
	return joinedBy(said, Between(), gapFigures(groups, gaps))
}

// SayGround says what groups are of; share is the ground's of the picture, 0 to 1.
func SayGround(g analysis.Ground, share float64) string {
	switch g {
	case analysis.GroundLeftOut:
		return language.Say("Without the ground, which is %s of what counts", Percent(share))
	case analysis.NoGround:
		return language.Say("No blank ground runs round the frame: the whole picture counts")
	case analysis.OnlyGround:
		return language.Say("There is hardly more than the ground: the whole picture counts")
	}
	return language.Say("The whole picture counts")
}

// groupWords takes the groups from the largest to the smallest.
func groupWords(by []analysis.Group) string {
	first, second := by[0], by[1]
	var words string
	switch {
	case first.Share-second.Share <= aboutOff:
		words = language.Say("About as much %s as %s", language.Name(first.Name), language.Name(second.Name))
	case first.Share >= mostly:
		words, second = language.Say("Mostly %s", language.Name(first.Name)), first
	default:
		words = language.Say("More %s than %s", language.Name(first.Name), language.Name(second.Name))
	}
	var few []string
	for _, g := range by[1:] {
		if g.Share <= aLittle && g.Name != second.Name {
			few = append(few, language.Name(g.Name))
		}
	}
	if len(few) > 0 {
		words = joined(words, language.Say("a little %s", And(few)))
	}
	return words
}

// groupFigures lists the shares of some groups of all.
func groupFigures(some, all []analysis.Group) string {
	shares := GroupShares(all)
	parts := make([]string, len(some))
	for i, g := range some {
		at := slices.IndexFunc(all, func(o analysis.Group) bool { return o.Name == g.Name })
		parts[i] = shares[at] + Nbsp + groupName(g.Name)
	}
	return strings.Join(parts, comma())
}

// gapFigures lists the gaps from dark to light; the unit is said once.
func gapFigures(groups []analysis.Group, gaps []float64) string {
	var parts []string
	for i, gap := range gaps {
		if math.IsNaN(gap) {
			continue // beside an empty group
		}
		pair := bothOf(groups, i)
		if len(parts) == 0 {
			parts = append(parts, language.Say("%s are %s apart", pair, SayTones(gap)))
		} else {
			parts = append(parts, pair+" "+Tenth(gap))
		}
	}
	return strings.Join(parts, comma())
}

// bothOf names two neighbouring groups.
func bothOf(groups []analysis.Group, i int) string {
	return language.Say("%s and %s", groupName(groups[i].Name), groupName(groups[i+1].Name))
}

// groupName is what a group is called, on one line.
func groupName(name string) string { return strings.ReplaceAll(language.Name(name), " ", Nbsp) }

// SaySmall says what becomes of the gaps between groups when the picture's longer side is
// made so many pixels.
func SaySmall(longer int, groups []analysis.Group, changes []analysis.GapChange) string {
	var parts []string
	for i, c := range changes {
		if i+1 >= len(groups) {
			break
		}
		pair := bothOf(groups, i)
		if math.IsNaN(c.Small) {
			parts = append(parts, language.Say("%s become one", pair))
			continue
		}
		if Tenth(c.Small) != Tenth(c.Whole) {
			parts = append(parts, language.Say("%s %s apart instead of %s", pair, SayTones(c.Small), Tenth(c.Whole)))
		}
	}
	if len(parts) == 0 {
		parts = []string{language.Say("the groups stay as far apart")}
	}
	return language.Say("At %s\u00a0pixels: %s.", strconv.Itoa(longer), strings.Join(parts, comma()))
}

// SayTarget says how a picture stands to its target: what it has more and less of, the
// largest difference first, in whole percent of the picture.
func SayTarget(m analysis.Match) string {
	by := slices.Clone(m.Groups())
	if len(by) == 0 {
		return language.Say("Nothing to compare with the target")
	}
	if len(by) == 1 {
		return language.Say("The target is of one lightness: it has no shares to match")
	}
	slices.SortStableFunc(by, func(a, b analysis.GroupMatch) int {
		return wholePercent(b.More) - wholePercent(a.More)
	})
	var parts []string
	for _, g := range by {
		if wholePercent(g.More) == 0 {
			continue
		}
		if g.More < 0 {
			parts = append(parts, language.Say("%s\u00a0less %s", Percent(-g.More), groupName(g.Name)))
		} else {
			parts = append(parts, language.Say("%s\u00a0more %s", Percent(g.More), groupName(g.Name)))
		}
	}
	if len(parts) == 0 {
		return language.Say("Shared as in the target")
	}
	return Capitalised(strings.Join(parts, comma()))
}

// wholePercent returns the size of a difference of shares as it is printed.
func wholePercent(more float64) int { return int(math.Round(100 * math.Abs(more))) }

// SayTargetDistance says how far a picture's spread is from its target's.
func SayTargetDistance(m analysis.Match) string {
	if math.IsNaN(m.Distance) {
		return language.Say("The spread can't be compared with the target's")
	}
	return language.Say("%s from it on average", SayTones(m.Distance))
}
