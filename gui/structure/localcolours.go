package structure

import (
	"image"
	"slices"
	"strconv"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/overlay"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// LocalColours owns the families (local colours with a light and a shadow side) of the
// picture: those found in it, and what those set by hand read. They are listed together,
// those set by hand first. It is used on the Fyne goroutine only.
type LocalColours struct {
	*host.Host
	Search  *live.Search
	found   live.Found // last
	Manual  []live.FamilyReading
	pointed int         // place in the list of the family that is outlined, or -1
	half    setup.Place // the light side of a family that is being set by hand
	LocalActs
}

// LocalActs are what the owner of local colours asks of the window.
type LocalActs struct {
	Ask      func(Side)                      // takes the next click for a side, or no longer
	MakePair func(light, shadow setup.Place) // makes two places the spots A and B
	GoOnFrom func(colour.RGB)                // shows what can be painted next to a colour
}

// Side is a side of a family set by hand that is asked for.
type Side uint8

const (
	NoSide Side = iota
	LightSide
	ShadowSide
)

// NewLocalColours returns the owner of local colours; none are known yet.
func NewLocalColours(h *host.Host, acts LocalActs) *LocalColours {
	l := &LocalColours{Host: h, LocalActs: acts, pointed: -1}
	l.Search = live.NewSearch(func(f live.Found) { l.OnWindow(func() { l.takeFound(f) }) }, host.LogMistake)
	return l
}

// takeFound takes the families that were found, if what they were found in is still watched.
func (l *LocalColours) takeFound(f live.Found) {
	if f.Source != l.Steps.Now().Source {
		return // of what was watched before
	}
	f.Order = live.OrderFamilies(l.found, f)
	l.found = f
	l.Notify(host.FamiliesFound)
}

// TakeManual takes what the families set by hand read, and reports whether light and shadow
// changed sides in one.
func (l *LocalColours) TakeManual(hand []live.FamilyReading) (turned bool) {
	turned = !slices.EqualFunc(l.Manual, hand, func(a, b live.FamilyReading) bool { return a.Turned == b.Turned })
	l.Manual = append(l.Manual[:0], hand...)
	return turned
}

// Forget forgets what was found, since something else is watched.
func (l *LocalColours) Forget() {
	l.found = live.Found{}
	l.ShowOutline()
}

// FoundList are the families found last in what is still watched, in the order of the list.
func (l *LocalColours) FoundList() []families.Family {
	if l.found.Found == nil {
		return nil
	}
	list := make([]families.Family, len(l.found.Order))
	for i, at := range l.found.Order {
		list[i] = l.found.List[at]
	}
	return list
}

// texts are the rows of the list, up to a number of them, and how many more there would be.
func (l *LocalColours) texts(most int) (rows []wording.FamilyRowText, more int) {
	now, found := l.Steps.Now(), l.FoundList()
	more = max(len(l.Manual)+len(found)-most, 0)
	for i, r := range l.Manual {
		if r.Err != nil {
			rows = append(rows, wording.SayLostFamily(i))
			continue
		}
		moved := i < len(now.Families) && now.Families[i].Moved()
		rows = append(rows, wording.SayManualFamily(i, r.Family, moved, now.Shade))
	}
	for _, f := range found[:max(len(found)-more, 0)] {
		rows = append(rows, wording.SayFoundFamily(f, now.Shade))
	}
	return rows[:min(len(rows), most)], more
}

// Point outlines family i of the list in the mirror; -1 outlines none.
func (l *LocalColours) Point(i int) {
	l.pointed = i
	l.ShowOutline()
}

// ShowOutline outlines the family that is pointed at, if it was found in the picture of now.
func (l *LocalColours) ShowOutline() {
	m, i := l.Mirror, l.pointed-len(l.Manual)
	if l.pointed < 0 || i < 0 || i >= len(l.FoundList()) || l.found.Origin != m.Bounds().Min {
		m.SetOverlay(widgets.OverlayOutline, nil)
		return
	}
	m.SetOverlay(widgets.OverlayOutline, overlay.Outline(l.found.Found, l.found.Order[i], m.Bounds(), l.Lay()))
}

// choose makes the sides of family i of the list the spots A and B.
func (l *LocalColours) choose(i int) {
	byHand, found := l.Steps.Now().Families, l.FoundList()
	switch hand := len(l.Manual); {
	case i < len(byHand) && i < hand:
		l.MakePair(byHand[i].Light, byHand[i].Shadow)
	case i >= hand && i-hand < len(found):
		f := found[i-hand]
		l.MakePair(l.placeOf(f.Light), l.placeOf(f.Shadow))
	}
}

// placeOf is where a side was found.
func (l *LocalColours) placeOf(s analysis.Spot) setup.Place {
	if s.X == nil || s.Y == nil {
		return setup.Place{}
	}
	return setup.Place{At: image.Pt(*s.X, *s.Y).Add(l.found.Origin)}
}

// Add begins a family set by hand: the next click is its light side, the one after it its
// shadow side.
func (l *LocalColours) Add() {
	if len(l.Steps.Now().Families) == setup.MaxManualFamilies {
		l.Messages.Note("Six families set by hand are the most. Take one away first.")
		return
	}
	l.Ask(LightSide)
}

// Clicked takes a click, or an area dragged over, as the side of a new family that was asked
// for.
func (l *LocalColours) Clicked(asked Side, p setup.Place) {
	if asked == LightSide {
		l.half = p
		l.Ask(ShadowSide)
		return
	}
	l.Ask(NoSide)
	l.Steps.Change(l.Steps.Now().WithFamily(setup.Family{Light: l.half, Shadow: p}), "")
}

// remove takes family i set by hand away.
func (l *LocalColours) remove(i int) {
	if now := l.Steps.Now(); i >= 0 && i < len(now.Families) {
		l.Steps.Change(now.WithoutFamily(i), "")
	}
}

// Marks are how the mirror shows the families set by hand: light and shadow of the first,
// then of the next.
func (l *LocalColours) Marks() (marks []widgets.Mark) {
	for i, f := range l.Steps.Now().Families {
		first, second := "light", "shadow"
		if i < len(l.Manual) && l.Manual[i].Turned {
			first, second = second, first
		}
		marks = append(marks, sideMark(first, i, f.Light), sideMark(second, i, f.Shadow))
	}
	return marks
}

func sideMark(side string, i int, p setup.Place) widgets.Mark {
	return widgets.Mark{Name: side + strconv.Itoa(i+1), At: p.At, Area: p.Area, Moved: p.Moved}
}

// Carried moves the side with mark j; end says that the drag is over.
func (l *LocalColours) Carried(j int, to image.Point, end bool) {
	now := l.Steps.Now()
	if j/2 >= len(now.Families) {
		return
	}
	l.Steps.Change(now.WithSideAt(j/2, j%2 == 1, to), "carry side "+strconv.Itoa(j))
	if end {
		l.Steps.Settle()
	}
}
