package wording

import (
	"math"

	"app.tonedesk/analysis/families"
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
			said = joinedBy(said, "; ", sayLineAlong(o, len(forms) > 1 || of.Line == nil))
		}
		if said == "" {
			continue
		}
		if len(forms) > 1 {
			said = "form " + sayWhere(f.X, f.Y) + ": " + said
		}
		lines = append(lines, said)
	}
	return lines
}

// sayAccentAlong says how much of an edge has an accent, and where that leaves the lightness.
func sayAccentAlong(e *families.FormEdge, coloured bool) string {
	said := "accent"
	if coloured {
		said += " " + e.Accent.Colour.Hex()
	}
	said += " along " + sayPart(e.AccentShare, "edge")
	if e.LeavesShare > 0 {
		off := meanDifference(e.Leaves)
		said += ", " + Tenth(math.Abs(off)) + " " + direction(off) + " than the nearer side along " + Percent(e.LeavesShare)
	}
	return said
}

// sayLineAlong says what a line is like, and where it vanishes.
func sayLineAlong(o *families.FormOutline, coloured bool) string {
	said := "line"
	if coloured {
		said = sayLine(*o.Line) + ","
	}
	if o.LineShare >= wholeFrom {
		return said + " all round"
	}
	return said + " vanishes along " + Percent(1-o.LineShare) + " of the outline" + sayVanishes(o.VanishesLight, o.VanishesDark)
}

// onOneSide is the part of where a line vanishes that lies on one side, from which on only that is
// named (our choice).
const onOneSide = 0.9

// sayVanishes says on which side lies what has no line.
func sayVanishes(inLight, inShadow float64) string {
	switch all := inLight + inShadow; {
	case inLight >= onOneSide*all:
		return ", in the light"
	case inShadow >= onOneSide*all:
		return ", in the shadow"
	}
	return ", " + Percent(inLight) + " in the light and " + Percent(inShadow) + " in the shadow"
}

// sayPart says how much of a thing.
func sayPart(share float64, of string) string {
	if share >= wholeFrom {
		return "the whole " + of
	}
	return Percent(share) + " of the " + of
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
		full, short = "accent along "+sayPart(accent/edge, "edge"), "accent "+Percent(accent/edge)
		if leaves > 0 {
			full += ", " + direction(off) + " along " + Percent(leaves/edge)
			short += ", " + direction(off) + " " + Percent(leaves/edge)
		}
	}
	switch {
	case outline == 0:
	case gone <= (1-wholeFrom)*outline:
		full, short = joinedBy(full, "; ", "line all round"), joinedBy(short, "; ", "line all round")
	default:
		full = joinedBy(full, "; ", "line vanishes along "+Percent(gone/outline))
		short = joinedBy(short, "; ", "line gone "+Percent(gone/outline))
	}
	return Capitalised(full), Capitalised(short)
}
