package wording

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/focus"
	"app.tonedesk/gui/language"
)

// NamesIn is what names the places of a picture.
type NamesIn struct {
	Groups  []analysis.Group
	Found   *families.Found  // nil where local colours weren't looked for
	Counts  func(i int) bool // which of them are named; nil for those that are sure
	Flipped bool             // left and right are exchanged where it is shown
}

// where says in which part of the picture a place lies.
func (in NamesIn) where(p *focus.Place) string { return in.at(p.X, p.Y) }

func (in NamesIn) at(x, y float64) string {
	if in.Flipped {
		x = 1 - x
	}
	return sayWhere(x, y)
}

func (in NamesIn) counts(i int) bool {
	if in.Counts == nil {
		return in.Found.List[i].Sure()
	}
	return in.Counts(i)
}

// neighbour names what lies at some places of one colour: "the orange", a local colour, if most lie in
// one that is named; else the colour's own hue.
func (in NamesIn) neighbour(c colour.RGB, places func(do func(x, y float64))) string {
	if in.Found != nil {
		if i, ok := in.Found.Under(places); ok && in.counts(i) {
			return theColour(hueWord(in.Found.List[i].Light))
		}
	}
	return hueWord(analysis.SpotOf(c))
}

// groupsOf says in which groups two colours lie; "" where either is in none.
func (in NamesIn) groupsOf(c, d colour.RGB) string {
	a, b := groupOf(c, in.Groups), groupOf(d, in.Groups)
	switch {
	case a == "" || b == "":
		return ""
	case a == b:
		return language.Say("both %s", groupName(a))
	}
	return language.Say("%s and %s", groupName(a), groupName(b))
}
