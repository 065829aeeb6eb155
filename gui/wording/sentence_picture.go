package wording

import (
	"cmp"
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
)

// SayLeader is the sentence on a picture's groups: which leads, how large it is, and the key.
func SayLeader(groups []analysis.Group, key analysis.Key) Sentence {
	return sayLeader(groups, SayKey(key), func(share string) string { return joined(share, SayKey(key)) })
}

// sayLeader says at the right what is to be said of groups, alone or with the leading one's share.
func sayLeader(groups []analysis.Group, right string, shared func(share string) string) Sentence {
	by := slices.DeleteFunc(slices.Clone(groups), func(g analysis.Group) bool { return g.Share == 0 }) // borders set by hand may leave one empty
	slices.SortStableFunc(by, func(a, b analysis.Group) int { return cmp.Compare(b.Share, a.Share) })
	switch len(by) {
	case 0:
		return Sentence{Title: language.Say("Nothing is counted"), Short: language.Say("Nothing counted"), Dim: true}
	case 1:
		return Sentence{Title: language.Say("All of it is %s", language.Name(by[0].Name)), Short: language.Say("All %s", language.Name(by[0].Name)), Right: right}
	}
	first, name := by[0], language.Name(by[0].Name)
	s := Sentence{Title: language.Say("%s leads", Capitalised(name)), Short: Capitalised(name), Right: shared(shareOf(first, groups))}
	switch {
	case first.Share >= mostly:
		s.Title, s.Short = language.Say("Mostly %s", name), language.Say("Mostly %s", name)
	case first.Share-by[1].Share <= aboutOff:
		s.Title, s.Short, s.Right = language.Say("No group leads"), language.Say("No group leads"), right
	}
	return s
}

// shareOf returns a group's share as it stands beside the others.
func shareOf(g analysis.Group, all []analysis.Group) string {
	at := slices.IndexFunc(all, func(o analysis.Group) bool { return o.Name == g.Name })
	return GroupShares(all)[at]
}

// SayKey names the key of a picture: "high key".
func SayKey(k analysis.Key) string { return language.Say(keyWords[k]) }

var keyWords = map[analysis.Key]language.Words{
	analysis.LowKey: "low" + Nbsp + "key", analysis.MiddleKey: "middle" + Nbsp + "key", analysis.HighKey: "high" + Nbsp + "key",
}

// SayOverall is the sentence on what happened between two pictures. nil: nothing was found out
// yet.
func SayOverall(c *analysis.Change) Sentence {
	switch {
	case c == nil:
		return Sentence{Title: language.Say("Comparing"), Short: language.Say("Comparing"), Dim: true}
	case c.Counted == 0:
		return Sentence{Title: language.Say("Nothing is counted in both"), Short: language.Say("Nothing in both"), Dim: true}
	}
	s := Sentence{Bars: []Bar{barOf("", c.MeanBefore), barOf("", c.MeanAfter)}}
	if c.Altered > 0 {
		s.Right = language.Say("%s changed", Percent(c.Altered))
	}
	switch {
	case analysis.AsPrinted(c.Tones) != 0:
		s.Short = sayStepWay(math.Abs(c.Tones), c.Tones)
		s.Title = language.Say("%s overall", s.Short)
	case c.Altered > 0: // what became lighter and what became darker make up for each other
		s.Title, s.Short = language.Say("As light as before overall"), language.Say("As light overall")
	default:
		s.Title, s.Short = language.Say("No change in lightness"), language.Say("No change")
	}
	return s
}
