package widgets

import (
	"slices"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/wording"
)

// SpotsState is what is shown of the spots.
type SpotsState struct {
	Texts       []wording.SpotText // two at least, of which either may be empty
	Differences wording.FigureText // of the first two, second minus first
	Remark      string             // on the first two
}

// Spots shows the spots: two as a pair with their differences, more as a table.
type Spots struct {
	drawn
	state SpotsState
	pair  *pairCard
	table *spotTable
}

// NewSpots returns spots, none of which is set.
func NewSpots(acts SpotActs) *Spots {
	s := &Spots{}
	s.pair, s.table = add(&s.drawn, newPairCard(acts)), add(&s.drawn, newSpotTable(acts))
	s.table.Hide()
	s.draw(s)
	return s
}

// Set shows a state, and reports whether the page is to be laid out anew for it.
func (s *Spots) Set(state SpotsState) (resized bool) {
	if slices.Equal(state.Texts, s.state.Texts) && state.Differences == s.state.Differences && state.Remark == s.state.Remark {
		return false
	}
	resized = len(state.Texts) != len(s.state.Texts)
	s.state = state
	if s.many() {
		s.table.set(state.Texts)
	} else {
		s.pair.set(state)
	}
	s.redraw()
	return resized
}

// State returns what is shown, which must not be changed.
func (s *Spots) State() SpotsState { return s.state }

// many reports whether there are more than a pair.
func (s *Spots) many() bool { return len(s.state.Texts) > 2 }

func (s *Spots) write(fyne.Size, colours) {
	show(s.pair, !s.many())
	show(s.table, s.many())
}

func (s *Spots) place(size fyne.Size) {
	s.pair.Resize(size)
	s.table.Resize(size)
}

// heightWithin is the height that they take of a room of this size.
func (s *Spots) heightWithin(width, room float32) float32 {
	if s.many() {
		return s.table.heightWithin(width, room)
	}
	return s.pair.heightWithin(width, room)
}

// plainPage is the width of the page before the window has one.
const plainPageWidth = 364

// minSize is the least height at the width of now.
func (s *Spots) minSize() fyne.Size {
	width := s.Size().Width
	if width == 0 {
		width = plainPageWidth
	}
	return fyne.NewSize(30*Step, s.heightWithin(width, 0))
}

// SpotsOverSpread stands the spots over the spread, which takes what is left of the page, but is
// never pushed off it: where there is little room the spots make do with less. Below them stands
// what else is seen, as high as it asks to be; for its sake neither has less than in a page of its own.
type SpotsOverSpread struct{}

// Heights in text of plain size, where others stand below: the most for spots, of which more scroll,
// and the least for the spread.
const (
	spotsAbove  = 25 * Step // five rows with their head
	spreadAbout = 16 * Step
)

// above are the heights of spots and spread where others stand below.
func (SpotsOverSpread) above(o []fyne.CanvasObject, width float32) (spots, spread float32) {
	return o[0].(*Spots).heightWithin(width, spotsAbove*textScale()), spreadAbout * textScale()
}

// Layout gives the spots what they need, and the spread the rest.
func (l SpotsOverSpread) Layout(o []fyne.CanvasObject, size fyne.Size) {
	spots, spread := o[0].(*Spots), o[1]
	gap, least, room := Step, spread.MinSize().Height, size.Height-heightBelow(o)
	if spots.heightWithin(size.Width, room)+gap+least > room {
		gap = Step / 2
	}
	height := spots.heightWithin(size.Width, room-gap-least)
	if heightBelow(o) > 0 {
		gap = Step
		height, least = l.above(o, size.Width)
	}
	put(spots, fyne.Position{}, fyne.NewSize(size.Width, height))
	put(spread, fyne.NewPos(0, height+gap), fyne.NewSize(size.Width, max(room-height-gap, least)))
	y := height + gap + spread.Size().Height + Step
	for _, below := range o[2:] {
		if below.Visible() {
			put(below, fyne.NewPos(0, y), fyne.NewSize(size.Width, below.MinSize().Height))
			y += below.MinSize().Height + Step
		}
	}
}

// heightBelow is the height of what is seen below the spread, with the gaps.
func heightBelow(o []fyne.CanvasObject) (height float32) {
	for _, below := range o[2:] {
		if below.Visible() {
			height += Step + below.MinSize().Height
		}
	}
	return height
}

// MinSize is the least of all.
func (l SpotsOverSpread) MinSize(o []fyne.CanvasObject) fyne.Size {
	spots, spread := o[0].MinSize(), o[1].MinSize()
	if below := heightBelow(o); below > 0 {
		high, about := l.above(o, max(o[0].Size().Width, spots.Width))
		return fyne.NewSize(max(spots.Width, spread.Width), high+Step+about+below)
	}
	return fyne.NewSize(max(spots.Width, spread.Width), spots.Height+Step/2+spread.Height+heightBelow(o))
}
