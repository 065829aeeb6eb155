package wording

import (
	"slices"

	"app.tonedesk/analysis/focus"
	"app.tonedesk/gui/language"
)

// FocusText is what is said of a picture's contrast, sentences without their stops.
type FocusText struct {
	Title string   // where the strongest contrast lies
	Lines []string // what was marked, the places after it, and the lightest and the darkest
}

// SayFocus says where a picture's strongest contrast lies, and how marked places, if there are any,
// stand to it: f.Of(them) is a.
func SayFocus(f *focus.Found, a focus.Answer, in NamesIn) (text FocusText) {
	if len(f.Places) == 0 {
		text.Title = language.Say("no place stands out by its contrast")
		return text
	}
	best := &f.Places[0]
	switch where := in.where(best); {
	case len(a.Marks) == 0:
		text.Title = language.Say("the strongest contrast lies %s", where)
	case a.There && len(a.Marks) == 1:
		text.Title = language.Say("the strongest contrast lies where you want it, %s", in.where(&a.Marks[0].Place))
	case a.There:
		text.Title = language.Say("the strongest contrast lies at one of the places you want, the %s one, %s", ordinal(a.Strongest), in.where(&a.Marks[a.Strongest].Place))
	default:
		text.Title = language.Say("the strongest contrast lies elsewhere, %s", where)
	}
	text.Title = language.Say("%s: %s¦what lies there", text.Title, in.between(best, f.Radius()))
	text.Lines = append(text.Lines, in.sayMarks(a)...)
	if best.EdgeWidth != nil {
		text.Lines = append(text.Lines, language.Say("the edges at the strongest are %s", sayEdgeWidth(*best.EdgeWidth)))
	}
	for i := range f.Places[1:] {
		p := &f.Places[i+1]
		text.Lines = append(text.Lines, language.Say("then %s, %s of it: %s", in.where(p), Percent(p.Contrast/best.Contrast), in.between(p, f.Radius())))
	}
	if f.Lightest != nil {
		text.Lines = append(text.Lines, in.sayExtreme(lightestWords, f.Lightest, f.IsAlone(f.Lightest)), in.sayExtreme(darkestWords, f.Darkest, f.IsAlone(f.Darkest)))
	}
	return text
}

// sayMarks says how much of the strongest contrast each marked place has, where that isn't all.
func (in NamesIn) sayMarks(a focus.Answer) (lines []string) {
	for i := range a.Marks {
		if m := &a.Marks[i]; i != a.Strongest {
			if len(a.Marks) > 1 {
				lines = append(lines, language.Say("the marked place %s has %s of it", in.where(&m.Place), Percent(m.Share)))
			} else {
				lines = append(lines, language.Say("the marked place has %s of it", Percent(m.Share)))
			}
		}
	}
	return lines
}

// between says what meets at a place: two local colours, where so many are there, with their codes
// where both have one name; else its light and dark by their groups.
func (in NamesIn) between(p *focus.Place, radius float64) string {
	if in.Found != nil {
		named := slices.DeleteFunc(in.Found.Around(p.X, p.Y, radius), func(i int) bool { return !in.counts(i) })
		if len(named) > 1 {
			a, b := in.Found.List[named[0]].Light, in.Found.List[named[1]].Light
			one, other := hueWord(a), hueWord(b)
			if one == other {
				one, other = one+Nbsp+a.Colour.Hex(), other+Nbsp+b.Colour.Hex()
			}
			return language.Say("%s against %s", theColour(one), theColour(other))
		}
	}
	dark, light := groupOf(p.Darker, in.Groups), groupOf(p.Lighter, in.Groups)
	switch {
	case dark == "" || light == "":
		return language.Say("%s against %s", p.Lighter.Hex(), p.Darker.Hex())
	case dark == light:
		return language.Say("%s against %s, both %s", p.Lighter.Hex(), p.Darker.Hex(), groupName(light))
	}
	return language.Say("%s against %s", groupName(light), groupName(dark))
}

// From which width, in shares of the picture's longer side, an edge is soft (our choice: what is
// sharper is all one step of a brush without softness in a painting of a few hundred strokes).
const softEdge = 0.015

// sayEdgeWidth says how sharp edges are.
func sayEdgeWidth(width float64) string {
	said := language.Say("sharp¦edges")
	if width >= softEdge {
		said = language.Say("soft¦edges")
	}
	if width < 0.005 {
		return said
	}
	return language.Say("%s, about %s\u00a0%% of the picture wide", said, Tenth(100*width))
}

// What is said of the lightest light and of the darkest dark: that it stands alone, and that it doesn't.
var (
	lightestWords = [2]language.Words{"the lightest light stands alone %s, %s above what is around it",
		"the lightest light doesn't stand alone: %[3]s of it lies together %[1]s, %[2]s above what is around it"}
	darkestWords = [2]language.Words{"the darkest dark stands alone %s, %s below what is around it",
		"the darkest dark doesn't stand alone: %[3]s of it lies together %[1]s, %[2]s below what is around it"}
)

// sayExtreme says whether the lightest light or the darkest dark stands alone.
func (in NamesIn) sayExtreme(words [2]language.Words, e *focus.Extreme, alone bool) string {
	if alone {
		return language.Say(words[0], in.at(e.X, e.Y), SayTones(e.Tones))
	}
	return language.Say(words[1], in.at(e.X, e.Y), SayTones(e.Tones), Percent(e.Alone))
}

// ordinal is the place in a list of the thing with an index, in words.
func ordinal(i int) string {
	return [...]string{language.Say("first"), language.Say("second"), language.Say("third"), language.Say("fourth"), language.Say("fifth")}[min(i, 4)]
}

// FocusCardText is what the card of a focus shows.
type FocusCardText struct {
	Lines []string // the answer; a sentence each
	Quiet []string // how much there is at what is marked
}

// Words for the card of a focus.
const (
	FocusAsk   language.Words = "Click where the eye should go"
	FocusTip   language.Words = "Click where the eye should go, or a ring to take it away, J"
	FocusMoved language.Words = "The picture moved. Mark the places again."
	FocusWaits language.Words = "Measuring"
)

// SayFocusCard is the card of marked places, of which there are some; f is nil before they were measured. lost says that the
// picture moved, it isn't known where to.
func SayFocusCard(f *focus.Found, a focus.Answer, in NamesIn, lost bool) (t FocusCardText) {
	switch {
	case lost:
		t.Lines = []string{FocusMoved.String()}
		return t
	case f == nil:
		t.Lines = []string{language.Say("Measuring.")}
		return t
	case len(f.Places) == 0:
		t.Lines = []string{language.Say("No place stands out by its contrast.")}
		return t
	}
	best := &f.Places[0]
	if a.There {
		t.Lines = []string{language.Say("The strongest contrast lies there.")}
		if len(a.Marks) > 1 {
			t.Lines[0] = language.Say("The strongest contrast lies there, %s.", in.where(&a.Marks[a.Strongest].Place))
		}
	} else {
		t.Lines = []string{language.Say("The strongest contrast lies elsewhere, %s.", in.where(best))}
	}
	t.Quiet = []string{Stopped(Capitalised(in.between(best, f.Radius())))}
	for _, line := range in.sayMarks(a) {
		t.Quiet = append(t.Quiet, Stopped(Capitalised(line)))
	}
	return t
}

// SayFocusFull says that so many places are the most.
func SayFocusFull(most int) string {
	return language.Say("%s places are the most: take one away first", Capitalised(countWord(most)))
}
