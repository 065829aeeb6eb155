package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// CardGrid shows the spots' cards, two in a row where there is room, else below each
// other. Use it on the Fyne goroutine only.
type CardGrid struct {
	widget.BaseWidget
	acts  CardActs
	Cards [setup.MaxSpots]*spotCard
	count int
}

// NewCardGrid returns a grid without cards.
func NewCardGrid(acts CardActs) *CardGrid {
	g := &CardGrid{acts: acts}
	for i := range g.Cards {
		g.Cards[i] = newSpotCard(i, acts)
		g.Cards[i].Hide()
	}
	g.ExtendBaseWidget(g)
	return g
}

// Set shows a card for each text, and reports whether the grid asks for another height.
func (g *CardGrid) Set(texts []wording.CardText) (resized bool) {
	for i, t := range texts {
		g.Cards[i].set(t)
	}
	if len(texts) == g.count {
		return false
	}
	g.count = len(texts)
	for i, c := range g.Cards {
		if i < g.count {
			c.Show()
		} else {
			c.Hide()
		}
	}
	g.Refresh()
	return true
}

// cardPair is the width from which two cards stand side by side.
const cardPair = 40 * Step

// cardBox returns where card i lies in a grid of this width.
func cardBox(i int, width float32) (fyne.Position, fyne.Size) {
	columns := 1
	if width >= cardPair {
		columns = 2
	}
	w := float32(int((width - float32(columns-1)*Step) / float32(columns)))
	h := cardHeight(w)
	return fyne.NewPos(float32(i%columns)*(w+Step), float32(i/columns)*(h+Step)), fyne.NewSize(w, h)
}

// CreateRenderer returns the renderer.
func (g *CardGrid) CreateRenderer() fyne.WidgetRenderer { return &cardGridRenderer{g} }

type cardGridRenderer struct{ g *CardGrid }

// Layout places the cards.
func (r *cardGridRenderer) Layout(size fyne.Size) {
	for i, c := range r.g.Cards[:r.g.count] {
		pos, box := cardBox(i, size.Width)
		c.Move(pos)
		c.Resize(box)
	}
}

// MinSize is the height at the width of now.
func (r *cardGridRenderer) MinSize() fyne.Size {
	if r.g.count == 0 {
		return fyne.NewSize(0, 0)
	}
	pos, box := cardBox(r.g.count-1, r.g.Size().Width)
	return fyne.NewSize(18*Step, pos.Y+box.Height)
}

// Refresh lays the cards anew.
func (r *cardGridRenderer) Refresh() {
	r.Layout(r.g.Size())
	for _, c := range r.g.Cards[:r.g.count] {
		c.Refresh()
	}
}

// Objects are the cards.
func (r *cardGridRenderer) Objects() []fyne.CanvasObject {
	all := make([]fyne.CanvasObject, len(r.g.Cards))
	for i, c := range r.g.Cards {
		all[i] = c
	}
	return all
}

// Destroy has nothing to let go of.
func (r *cardGridRenderer) Destroy() {}
