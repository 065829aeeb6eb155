package wording

import (
	"math"
	"reflect"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// The sentences of the window. They are said by plain functions, so that a table can test
// every one of them; widgets only show them. Errors are put into words in errors.go.

// Spans of tones that the second line remarks on, as printed, limits included (common
// practice, no source).
const (
	readsFrom = 2.0 // a shadow this many tones darker reads as a shadow
	readsTo   = 3.0
)

// VerdictText is what is said of two spots.
type VerdictText struct {
	Title  string // the sentence
	Short  string // the same for a narrow window
	Sub    string // quieter, below
	Remark string // on how a grey layer would mislead; "" for none
	Bars   []Bar  // the spots' lightness, side by side
}

// Equal reports whether either says the same.
func (t VerdictText) Equal(o VerdictText) bool { return reflect.DeepEqual(t, o) }

// Bar is a spot's lightness as a bar.
type Bar struct {
	Name      string
	Lightness float64 // L*, 0 to 100: the height
	Grey      uint8   // 8-bit code: the fill
}

// SayPair returns what is said of a pair of spots with the names a and b.
func SayPair(p analysis.Pair, a, b string) VerdictText {
	title, short := pairTitle(p, b)
	return VerdictText{
		Title:  title,
		Short:  short,
		Sub:    pairSub(p),
		Remark: SayRemark(p.LayerGreyRemark()),
		Bars:   []Bar{barOf(a, p.A), barOf(b, p.B)},
	}
}

func barOf(name string, s analysis.Spot) Bar {
	return Bar{Name: name, Lightness: s.Lightness, Grey: colour.GreyOf(s.Lightness)}
}

// pairTitle returns the sentence and its short form. The direction is b's, seen from a.
func pairTitle(p analysis.Pair, b string) (title, short string) {
	if p.Verdict == analysis.Same {
		return "Same lightness", "Same lightness"
	}
	tones := Tenth(math.Abs(p.Tones))
	if tones == "0.0" { // differs in lightness by more than the tolerance, all the same
		tones = "under" + Nbsp + "0.1"
	}
	way := direction(p.LightnessDifference)
	return b + " is " + tones + Nbsp + "tones " + way, b + " " + tones + " " + way
}

// pairSub says what the distance means in the trade. It describes and doesn't judge.
func pairSub(p analysis.Pair) string {
	if p.Verdict == analysis.Same {
		if d := Tenth(math.Abs(p.LightnessDifference)); d != "0.0" {
			return "Lightness differs by " + d
		}
		return "No difference in lightness"
	}
	if p.Verdict == analysis.Close {
		return "Close: half a tone or less"
	}
	switch tones := analysis.AsPrinted(math.Abs(p.Tones)); {
	case tones < readsFrom:
		return "Under two tones: a soft step"
	case tones > readsTo:
		return "Over three tones: a strong step"
	case p.LightnessDifference > 0:
		return "Two to three tones: a light that reads"
	}
	return "Two to three tones: a shadow that reads"
}

// SayRemark says how a grey layer would mislead about a pair, "" where it wouldn't.
func SayRemark(r analysis.Remark) string {
	switch r {
	case analysis.ShowsDifference:
		return "A grey layer would show these as different, though they are equally light"
	case analysis.HidesDifference:
		return "A grey layer would hide this difference"
	}
	return ""
}

// SayNoPair returns what stands in the sentence's place while there are fewer than two
// spots. first is the name of the only spot, "" if there is none.
func SayNoPair(first string) VerdictText {
	if first == "" {
		return VerdictText{Title: "Click a spot in the picture", Short: "Click a spot", Sub: "A second click compares it with the first"}
	}
	return VerdictText{Title: "Click a second spot", Short: "Click a second spot", Sub: "It will be compared with " + first}
}

// SayTool says what the pointer does while a still is marked; holds says that the tool takes
// hold of notes.
func SayTool(name string, holds bool) VerdictText {
	if holds {
		return VerdictText{Title: "Take hold of notes", Short: "Take hold", Sub: "Drag moves one; on the picture it moves the picture"}
	}
	return VerdictText{Title: "Draw: " + name, Short: name, Sub: "Esc goes back to holding"}
}
