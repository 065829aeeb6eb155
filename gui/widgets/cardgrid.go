package widgets

import (
	"fyne.io/fyne/v2"

	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// CardGrid shows the spots' cards, two in a row where there is room, else below each
// other. Use it on the Fyne goroutine only.
type CardGrid struct {
	drawn
	cards [setup.MaxSpots]*spotCard
	count int
}

// NewCardGrid returns a grid without cards.
func NewCardGrid(acts CardActs) *CardGrid {
	g := &CardGrid{}
	for i := range g.cards {
		g.cards[i] = add(&g.drawn, newSpotCard(i, acts))
	}
	g.draw(g, g)
	return g
}

// Set shows a card for each text, and reports whether the grid asks for another height.
func (g *CardGrid) Set(texts []wording.CardText) (resized bool) {
	for i, t := range texts {
		g.cards[i].set(t)
	}
	resized = len(texts) != g.count
	g.count = len(texts)
	g.redraw()
	return resized
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

// write shows as many cards as there are texts.
func (g *CardGrid) write(fyne.Size, colours) {
	for i, c := range g.cards {
		show(c, i < g.count)
	}
}

// place stands the cards in their rows.
func (g *CardGrid) place(size fyne.Size) {
	for i, c := range g.cards[:g.count] {
		pos, box := cardBox(i, size.Width)
		put(c, pos, box)
	}
}

// minSize is the height at the width of now.
func (g *CardGrid) minSize() fyne.Size {
	if g.count == 0 {
		return fyne.NewSize(0, 0)
	}
	pos, box := cardBox(g.count-1, g.Size().Width)
	return fyne.NewSize(18*Step, pos.Y+box.Height)
}
