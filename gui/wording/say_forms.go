package wording

import (
	"math"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/language"
)

// wholeFrom is the share from which on something runs along all of an edge (our choice: what is
// less is seen).
const wholeFrom = 0.95

// SayForms says how far the accent runs along the edge of each form of a local colour, and where
// its line vanishes; nothing of forms that have neither. Of one form alone, the colours are said of
// the local colour already.
func SayForms(of families.Family, forms []families.Form) (lines []string) {
	for i := range forms {
		f, said := &forms[i], ""
		if e := f.Edge; e != nil && e.AccentShare > 0 {
			said = sayAccentAlong(e, len(forms) > 1 || of.Accent == nil)
		}
		if o := f.Outline; o != nil && o.Line != nil {
			said = joinedBy(said, Between(), sayLineAlong(o, len(forms) > 1 || of.Line == nil))
		}
		if said == "" {
			continue
		}
		if len(forms) > 1 {
			said = language.Say("form %s: %s", sayWhere(f.X, f.Y), said)
		}
		lines = append(lines, said)
	}
	return lines
}

// sayAccentAlong says how much of an edge has an accent, and where that leaves the lightness.
func sayAccentAlong(e *families.FormEdge, coloured bool) string {
	said := language.Say("accent along %s", sayOfEdge(e.AccentShare))
	if coloured {
		said = language.Say("accent %s along %s", e.Accent.Colour.Hex(), sayOfEdge(e.AccentShare))
	}
	if e.LeavesShare > 0 {
		off := meanDifference(e.Leaves)
		said = joined(said, language.Say("%s %s than the nearer side along %s", Tenth(math.Abs(off)), direction(off), Percent(e.LeavesShare)))
	}
	return said
}

// sayLineAlong says what a line is like, and where it vanishes.
func sayLineAlong(o *families.FormOutline, coloured bool) string {
	switch all := o.LineShare >= wholeFrom; {
	case all && coloured:
		return joined(sayLine(*o.Line), language.Say("all round"))
	case all:
		return language.Say("line all round")
	case coloured:
		return joined(joined(sayLine(*o.Line), language.Say("vanishes along %s of the outline", Percent(1-o.LineShare))), sayVanishes(o.VanishesLight, o.VanishesDark))
	}
	return joined(language.Say("line vanishes along %s of the outline", Percent(1-o.LineShare)), sayVanishes(o.VanishesLight, o.VanishesDark))
}

// onOneSide is the part of where a line vanishes that lies on one side, from which on only that is
// named (our choice).
const onOneSide = 0.9

// sayVanishes says on which side lies what has no line.
func sayVanishes(inLight, inShadow float64) string {
	switch all := inLight + inShadow; {
	case inLight >= onOneSide*all:
		return language.Say("in the light")
	case inShadow >= onOneSide*all:
		return language.Say("in the shadow")
	}
	return language.Say("%s in the light and %s in the shadow", Percent(inLight), Percent(inShadow))
}

// sayOfEdge says how much of an edge.
func sayOfEdge(share float64) string {
	if share >= wholeFrom {
		return language.Say("the whole edge")
	}
	return language.Say("%s of the edge", Percent(share))
}

// meanDifference is the mean difference in lightness of stretches, by their lengths.
func meanDifference(list []families.Stretch) float64 {
	sum, length := 0.0, 0.0
	for _, s := range list {
		sum, length = sum+*s.Difference*s.Length, length+s.Length
	}
	return sum / length
}

func joinedBy(a, by, b string) string {
	if a == "" {
		return b
	}
	return a + by + b
}

// Between stands between two parts of a line, which may have commas of their own.
func Between() string { return language.Say("; ¦between parts") }

// SayPointed says in one line what is drawn along the forms of a local colour that is pointed at,
// in full and short; "" where nothing is.
func SayPointed(forms []families.Form) (full, short string) {
	var edge, accent, leaves, outline, gone, off float64
	for i := range forms {
		if e := forms[i].Edge; e != nil {
			edge, accent, leaves = edge+e.Length, accent+e.AccentShare*e.Length, leaves+e.LeavesShare*e.Length
			if len(e.Leaves) > 0 {
				off += meanDifference(e.Leaves) * e.LeavesShare * e.Length
			}
		}
		if o := forms[i].Outline; o != nil && o.Line != nil {
			outline, gone = outline+o.Length, gone+(1-o.LineShare)*o.Length
		}
	}
	if accent > 0 {
		full, short = language.Say("accent along %s", sayOfEdge(accent/edge)), language.Say("accent %s", Percent(accent/edge))
		if leaves > 0 {
			full = joined(full, language.Say("%s along %s", direction(off), Percent(leaves/edge)))
			short = joined(short, direction(off)+" "+Percent(leaves/edge))
		}
	}
	switch {
	case outline == 0:
	case gone <= (1-wholeFrom)*outline:
		full, short = joinedBy(full, Between(), language.Say("line all round")), joinedBy(short, Between(), language.Say("line all round"))
	default:
		full = joinedBy(full, Between(), language.Say("line vanishes along %s", Percent(gone/outline)))
		short = joinedBy(short, Between(), language.Say("line gone %s", Percent(gone/outline)))
	}
	return Capitalised(full), Capitalised(short)
}
