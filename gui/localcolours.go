package gui

import (
	"image"
	"slices"
	"strconv"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/overlay"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// localColours owns the families (local colours with a light and a shadow side) of the
// picture: those found in it, and what those set by hand read. They are listed together,
// those set by hand first. It is used on the Fyne goroutine only.
type localColours struct {
	*host
	search  *live.Search
	found   live.Found // last
	hand    []live.FamilyReading
	pointed int         // place in the list of the family that is outlined, or -1
	half    setup.Place // the light side of a family that is being set by hand
	localActs
}

// localActs are what the owner of local colours asks of the window.
type localActs struct {
	ask      func(side)                      // takes the next click for a side, or no longer
	makePair func(light, shadow setup.Place) // makes two places the spots A and B
	goOnFrom func(colour.RGB)                // shows what can be painted next to a colour
}

// side is a side of a family set by hand that is asked for.
type side uint8

const (
	noSide side = iota
	lightSide
	shadowSide
)

func newLocalColours(h *host, acts localActs) *localColours {
	l := &localColours{host: h, localActs: acts, pointed: -1}
	l.search = live.NewSearch(func(f live.Found) { l.onWindow(func() { l.takeFound(f) }) }, logMistake)
	return l
}

// takeFound takes the families that were found, if what they were found in is still watched.
func (l *localColours) takeFound(f live.Found) {
	if f.Source != l.steps.now().Source {
		return // of what was watched before
	}
	f.Order = live.OrderFamilies(l.found, f)
	l.found = f
	l.tellPage(familiesFound)
}

// takeHand takes what the families set by hand read, and reports whether light and shadow
// changed sides in one.
func (l *localColours) takeHand(hand []live.FamilyReading) (turned bool) {
	turned = !slices.EqualFunc(l.hand, hand, func(a, b live.FamilyReading) bool { return a.Turned == b.Turned })
	l.hand = append(l.hand[:0], hand...)
	return turned
}

// forget forgets what was found, since something else is watched.
func (l *localColours) forget() {
	l.found = live.Found{}
	l.showOutline()
}

// foundList are the families found last in what is still watched, in the order of the list.
func (l *localColours) foundList() []families.Family {
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
func (l *localColours) texts(most int) (rows []wording.FamilyRowText, more int) {
	now, found := l.steps.now(), l.foundList()
	more = max(len(l.hand)+len(found)-most, 0)
	for i, r := range l.hand {
		if r.Err != nil {
			rows = append(rows, wording.SayLostFamily(i))
			continue
		}
		moved := i < len(now.Families) && now.Families[i].Moved()
		rows = append(rows, wording.SayHandFamily(i, r.Family, moved, now.Shade))
	}
	for _, f := range found[:max(len(found)-more, 0)] {
		rows = append(rows, wording.SayFoundFamily(f, now.Shade))
	}
	return rows[:min(len(rows), most)], more
}

// point outlines family i of the list in the mirror; -1 outlines none.
func (l *localColours) point(i int) {
	l.pointed = i
	l.showOutline()
}

// showOutline outlines the family that is pointed at, if it was found in the picture of now.
func (l *localColours) showOutline() {
	m, i := l.mirror, l.pointed-len(l.hand)
	if l.pointed < 0 || i < 0 || i >= len(l.foundList()) || l.found.Origin != m.Bounds().Min {
		m.SetOverlay(widgets.OverlayOutline, nil)
		return
	}
	m.SetOverlay(widgets.OverlayOutline, overlay.Outline(l.found.Found, l.found.Order[i], m.Bounds(), l.lay()))
}

// choose makes the sides of family i of the list the spots A and B.
func (l *localColours) choose(i int) {
	byHand, found := l.steps.now().Families, l.foundList()
	switch hand := len(l.hand); {
	case i < len(byHand) && i < hand:
		l.makePair(byHand[i].Light, byHand[i].Shadow)
	case i >= hand && i-hand < len(found):
		f := found[i-hand]
		l.makePair(l.placeOf(f.Light), l.placeOf(f.Shadow))
	}
}

// placeOf is where a side was found.
func (l *localColours) placeOf(s analysis.Spot) setup.Place {
	if s.X == nil || s.Y == nil {
		return setup.Place{}
	}
	return setup.Place{At: image.Pt(*s.X, *s.Y).Add(l.found.Origin)}
}

// add begins a family set by hand: the next click is its light side, the one after it its
// shadow side.
func (l *localColours) add() {
	if len(l.steps.now().Families) == setup.MaxHandFamilies {
		l.messages.note("Six families set by hand are the most. Take one away first.")
		return
	}
	l.ask(lightSide)
}

// clicked takes a click, or an area dragged over, as the side of a new family that was asked
// for.
func (l *localColours) clicked(asked side, p setup.Place) {
	if asked == lightSide {
		l.half = p
		l.ask(shadowSide)
		return
	}
	l.ask(noSide)
	l.steps.change(l.steps.now().WithFamily(setup.Family{Light: l.half, Shadow: p}), "")
}

// remove takes family i set by hand away.
func (l *localColours) remove(i int) {
	if now := l.steps.now(); i >= 0 && i < len(now.Families) {
		l.steps.change(now.WithoutFamily(i), "")
	}
}

// marks are how the mirror shows the families set by hand: light and shadow of the first,
// then of the next.
func (l *localColours) marks() (marks []widgets.Mark) {
	for i, f := range l.steps.now().Families {
		first, second := "light", "shadow"
		if i < len(l.hand) && l.hand[i].Turned {
			first, second = second, first
		}
		marks = append(marks, sideMark(first, i, f.Light), sideMark(second, i, f.Shadow))
	}
	return marks
}

func sideMark(side string, i int, p setup.Place) widgets.Mark {
	return widgets.Mark{Name: side + strconv.Itoa(i+1), At: p.At, Area: p.Area, Moved: p.Moved}
}

// carried moves the side with mark j; end says that the drag is over.
func (l *localColours) carried(j int, to image.Point, end bool) {
	now := l.steps.now()
	if j/2 >= len(now.Families) {
		return
	}
	l.steps.change(now.WithSideAt(j/2, j%2 == 1, to), "carry side "+strconv.Itoa(j))
	if end {
		l.steps.settle()
	}
}
