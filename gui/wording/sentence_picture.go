package wording

import (
	"cmp"
	"math"
	"slices"

	"app.tonedesk/analysis"
)

// SayLeader is the sentence on a picture's groups: which leads, how large it is, and the key.
func SayLeader(groups []analysis.Group, key analysis.Key) Sentence {
	by := slices.DeleteFunc(slices.Clone(groups), func(g analysis.Group) bool { return g.Share == 0 }) // borders set by hand may leave one empty
	slices.SortStableFunc(by, func(a, b analysis.Group) int { return cmp.Compare(b.Share, a.Share) })
	switch len(by) {
	case 0:
		return Sentence{Title: "Nothing is counted", Short: "Nothing counted", Dim: true}
	case 1:
		return Sentence{Title: "All of it is " + by[0].Name, Short: "All " + by[0].Name, Right: SayKey(key)}
	}
	first := by[0]
	s := Sentence{Title: Capitalised(first.Name) + " leads", Short: Capitalised(first.Name), Right: shareOf(first, groups) + ", " + SayKey(key)}
	switch {
	case first.Share >= mostly:
		s.Title, s.Short = "Mostly "+first.Name, "Mostly "+first.Name
	case first.Share-by[1].Share <= aboutOff:
		s.Title, s.Short, s.Right = "No group leads", "No group leads", SayKey(key)
	}
	return s
}

// shareOf returns a group's share as it stands beside the others.
func shareOf(g analysis.Group, all []analysis.Group) string {
	at := slices.IndexFunc(all, func(o analysis.Group) bool { return o.Name == g.Name })
	return GroupShares(all)[at]
}

// SayKey names the key of a picture: "high key".
func SayKey(k analysis.Key) string { return string(k) + Nbsp + "key" }

// SayOverall is the sentence on what happened between two pictures. nil: nothing was found out
// yet.
func SayOverall(c *analysis.Change) Sentence {
	switch {
	case c == nil:
		return Sentence{Title: "Comparing", Short: "Comparing", Dim: true}
	case c.Counted == 0:
		return Sentence{Title: "Nothing is counted in both", Short: "Nothing in both", Dim: true}
	}
	s := Sentence{Bars: []Bar{barOf("", c.MeanBefore), barOf("", c.MeanAfter)}}
	if c.Altered > 0 {
		s.Right = Percent(c.Altered) + " changed"
	}
	switch {
	case analysis.AsPrinted(c.Tones) != 0:
		s.Short = sayStepWay(math.Abs(c.Tones), c.Tones)
		s.Title = s.Short + " overall"
	case c.Altered > 0: // what became lighter and what became darker make up for each other
		s.Title, s.Short = "As light as before overall", "As light overall"
	default:
		s.Title, s.Short = "No change in lightness", "No change"
	}
	return s
}
