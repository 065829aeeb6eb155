package structure

import (
	"errors"
	"image"
	"math"
	"strconv"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
)

// byHand is the state of setting a family by hand.
type byHand struct {
	half   setup.Place  // the side that is known, while the other one is asked for
	placed setup.Family // that was proposed, and may be corrected
}

// Side is what of a family set by hand is asked for.
type Side uint8

const (
	NoSide     Side = iota
	AnySide         // a place on the form: its sides are proposed
	OtherSide       // the side that could not be proposed
	BetterSide      // a better place for one of those proposed
	FocusPlace      // where the eye should go: of no family
)

// Add begins a family set by hand: a click on the form proposes its sides, each click after it
// corrects one.
func (l *LocalColours) Add() {
	if len(l.Steps.Now().Families) == setup.MaxManualFamilies {
		l.Messages.Note(language.Say("Six local colours by hand are the most: take one away first"))
		return
	}
	l.Ask(AnySide)
}

// Clicked takes a click, or an area dragged over, as what was asked for.
func (l *LocalColours) Clicked(asked Side, p setup.Place) {
	now := l.Steps.Now()
	switch {
	case asked == FocusPlace:
		l.Focus.clicked(p)
	case asked == OtherSide:
		l.Ask(NoSide)
		l.Steps.Change(now.WithFamily(setup.Family{Light: l.half, Shadow: p}), "")
	case asked == AnySide && !p.Area.Empty(): // exactly this is to be measured
		l.half = p
		l.Ask(OtherSide)
	default:
		l.Search.Ask(p.At, now.Source, func(r live.Around) {
			l.OnWindow(func() { l.answered(asked, p, r) })
		})
	}
}

// answered goes on when it is known what lies around a click, unless that was given up.
func (l *LocalColours) answered(asked Side, p setup.Place, r live.Around) {
	now := l.Steps.Now()
	last := len(now.Families) - 1
	switch {
	case l.Asked() != asked:
	case asked == BetterSide && last >= 0 && now.Families[last] == l.placed: // not undone, or carried elsewhere
		l.correct(last, p, r)
	case asked == BetterSide:
		l.Ask(NoSide)
	case r.Err != nil:
		if errors.Is(r.Err, families.ErrNoSides) {
			l.Messages.Note(language.Say("Its other side isn't found: click that side too"))
		}
		l.half = p
		l.Ask(OtherSide)
	default:
		l.placed = setup.Family{Light: setup.Place{At: r.Sides.Light}, Shadow: setup.Place{At: r.Sides.Shadow}}
		l.Steps.Change(now.WithFamily(l.placed), "")
		l.Ask(BetterSide)
	}
}

// correct puts the side of family i that lies nearer in lightness to what was clicked there, or
// the shadow where that is not known.
func (l *LocalColours) correct(i int, p setup.Place, r live.Around) {
	second := true
	if i < len(l.Manual) && l.Manual[i].Err == nil && !errors.Is(r.Err, families.ErrUnsearched) {
		f := l.Manual[i]
		shadow := math.Abs(r.Lightness-f.Shadow.Lightness) < math.Abs(r.Lightness-f.Light.Lightness)
		second = shadow != f.Turned
	}
	next := l.Steps.Now().WithSideAt(i, second, p.At)
	l.placed = next.Families[i]
	l.Steps.Change(next, "")
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
		first, second := language.Say("light¦side"), language.Say("shadow¦side")
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
