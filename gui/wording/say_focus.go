package wording

import (
	"fmt"
	"slices"

	"app.tonedesk/analysis/focus"
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
		text.Title = "no place stands out by its contrast"
		return text
	}
	best := &f.Places[0]
	switch where := in.where(best); {
	case len(a.Marks) == 0:
		text.Title = "the strongest contrast lies " + where
	case a.There && len(a.Marks) == 1:
		text.Title = "the strongest contrast lies where you want it, " + in.where(&a.Marks[0].Place)
	case a.There:
		text.Title = fmt.Sprintf("the strongest contrast lies at one of the places you want, the %s one, %s", ordinal(a.Strongest), in.where(&a.Marks[a.Strongest].Place))
	default:
		text.Title = "the strongest contrast lies elsewhere, " + where
	}
	text.Title += ": " + in.between(best, f.Radius())
	text.Lines = append(text.Lines, in.sayMarks(a)...)
	if best.EdgeWidth != nil {
		text.Lines = append(text.Lines, "the edges at the strongest are "+sayEdgeWidth(*best.EdgeWidth))
	}
	for i := range f.Places[1:] {
		p := &f.Places[i+1]
		text.Lines = append(text.Lines, fmt.Sprintf("then %s, %s of it: %s", in.where(p), Percent(p.Contrast/best.Contrast), in.between(p, f.Radius())))
	}
	if f.Lightest != nil {
		text.Lines = append(text.Lines, in.sayExtreme("the lightest light", "above", f.Lightest), in.sayExtreme("the darkest dark", "below", f.Darkest))
	}
	return text
}

// sayMarks says how much of the strongest contrast each marked place has, where that isn't all.
func (in NamesIn) sayMarks(a focus.Answer) (lines []string) {
	for i := range a.Marks {
		if m := &a.Marks[i]; i != a.Strongest {
			which := "the marked place"
			if len(a.Marks) > 1 {
				which += " " + in.where(&m.Place)
			}
			lines = append(lines, which+" has "+Percent(m.Share)+" of it")
		}
	}
	return lines
}

// between says what meets at a place: two local colours, where so many are there, else its light and
// dark by their groups.
func (in NamesIn) between(p *focus.Place, radius float64) string {
	if in.Found != nil {
		named := slices.DeleteFunc(in.Found.Around(p.X, p.Y, radius), func(i int) bool { return !in.counts(i) })
		var names []string
		for _, i := range named {
			if name := "the" + Nbsp + hueWord(in.Found.List[i].Light); !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
		if len(names) > 1 {
			return names[0] + " against " + names[1]
		}
	}
	dark, light := groupOf(p.Darker, in.Groups), groupOf(p.Lighter, in.Groups)
	switch {
	case dark == "" || light == "":
		return p.Lighter.Hex() + " against " + p.Darker.Hex()
	case dark == light:
		return p.Lighter.Hex() + " against " + p.Darker.Hex() + ", both " + unbroken(light)
	}
	return unbroken(light) + " against " + unbroken(dark)
}

// From which width, in shares of the picture's longer side, an edge is soft (our choice: what is
// sharper is all one step of a brush without softness in a painting of a few hundred strokes).
const softEdge = 0.015

// sayEdgeWidth says how sharp edges are.
func sayEdgeWidth(width float64) string {
	said := "sharp"
	if width >= softEdge {
		said = "soft"
	}
	if width < 0.005 {
		return said
	}
	return said + ", about " + Tenth(100*width) + Nbsp + "% of the picture wide"
}

// sayExtreme says whether the lightest light or the darkest dark stands alone.
func (in NamesIn) sayExtreme(what, way string, e *focus.Extreme) string {
	where, from := in.at(e.X, e.Y), SayTones(e.Tones)+" "+way+" what is around it"
	if e.Alone >= focus.DefaultOptions().AloneShare {
		return what + " stands alone " + where + ", " + from
	}
	return fmt.Sprintf("%s doesn't stand alone: %s of it lies together %s, %s", what, Percent(e.Alone), where, from)
}

// ordinal is the place in a list of the thing with an index, in words.
func ordinal(i int) string {
	return [...]string{"first", "second", "third", "fourth", "fifth"}[min(i, 4)]
}

// FocusCardText is what the card of a focus shows.
type FocusCardText struct {
	Lines []string // the answer; a sentence each
	Quiet []string // how much there is at what is marked
}

// Words for the card of a focus.
const (
	FocusAsk   = "Click where the eye should go"
	FocusTip   = "Click where the eye should go, or a ring to take it away, J"
	FocusMoved = "The picture moved. Mark the places again."
	FocusWaits = "Measuring"
)

// SayFocusCard is the card of marked places, of which there are some; f is nil before they were measured. lost says that the
// picture moved, it isn't known where to.
func SayFocusCard(f *focus.Found, a focus.Answer, in NamesIn, lost bool) (t FocusCardText) {
	switch {
	case lost:
		t.Lines = []string{FocusMoved}
		return t
	case f == nil:
		t.Lines = []string{FocusWaits + "."}
		return t
	case len(f.Places) == 0:
		t.Lines = []string{"No place stands out by its contrast."}
		return t
	}
	best := &f.Places[0]
	if a.There {
		t.Lines = []string{"The strongest contrast lies there."}
		if len(a.Marks) > 1 {
			t.Lines[0] = "The strongest contrast lies there, " + in.where(&a.Marks[a.Strongest].Place) + "."
		}
	} else {
		t.Lines = []string{"The strongest contrast lies elsewhere, " + in.where(best) + "."}
	}
	t.Quiet = []string{Capitalised(in.between(best, f.Radius())) + "."}
	for _, line := range in.sayMarks(a) {
		t.Quiet = append(t.Quiet, Capitalised(line)+".")
	}
	return t
}

// SayFocusFull says that so many places are the most.
func SayFocusFull(most int) string {
	return Capitalised(countWord(most)) + " places are the most: take one away first"
}
