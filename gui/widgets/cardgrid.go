package widgets

import (
	"fyne.io/fyne/v2"

	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// CardGrid shows the spots' cards, two in a row where there is room, else below each
// other.
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
	g.draw(g)
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

// Lengths of a card.
const (
	SwatchHeight = 5 * Step // 40, the least for a fair comparison
	cardRow      = 2 * Step // height of a line
	cardBaseline = 1.5 * Step
	crossSize    = 1.75 * Step
	noteWidth    = 14 * Step // the longest note
	cardColumns  = 36 * Step // from this width on the figures stand in two columns
)

// cardFigures are the figures of a card, in order: their names and how to find them.
var cardFigures = [...]struct {
	name string
	of   func(wording.CardText) string
}{
	{"lightness", func(t wording.CardText) string { return t.Lightness }},
	{"value", func(t wording.CardText) string { return t.Value }},
	{"layer grey", func(t wording.CardText) string { return t.LayerGrey }},
	{"chroma", func(t wording.CardText) string { return t.Chroma }},
	{"hue, degrees", func(t wording.CardText) string { return t.Hue }},
}

// cardPlan is where everything lies on a card of a certain width. It depends on nothing
// else: cards keep their height, whatever there is to say.
type cardPlan struct {
	swatch  fyne.Position // its top left
	half    float32       // width of the colour; the grey takes the rest up to right
	right   float32
	head    span // name and hex
	cross   fyne.Position
	figures [len(cardFigures)]span
	note    span
	seen    span // may be the note's: then only one of the two is shown
	height  float32
}

// planCard lays out a card. A narrow one has a figure a line; a wide one stands alone in
// its row and spares height by two columns.
func planCard(width float32) cardPlan {
	left, right := Step, max(width-Step, Step)
	p := cardPlan{swatch: fyne.NewPos(left, Step), right: right}
	p.half = float32(int((right - left) / 2)) // whole, so that the two meet between pixels
	y := Step + SwatchHeight + Step/2
	p.head = span{left, right - crossSize - Step/2, y + cardBaseline}
	p.cross = fyne.NewPos(right-crossSize+2, y+(cardRow-crossSize)/2)
	y += cardRow + Step/2
	columns := []span{{left: left, right: right}}
	if width >= cardColumns {
		middle := (left + right) / 2
		columns = []span{{left: left, right: middle - Step}, {left: middle + Step, right: right}}
	}
	rows := (len(p.figures) + len(columns) - 1) / len(columns)
	for i := range p.figures {
		p.figures[i] = columns[i/rows]
		p.figures[i].baseline = y + float32(i%rows)*cardRow + cardBaseline
	}
	y += float32(rows) * cardRow
	p.note = span{left, right, y + cardBaseline}
	p.seen = p.note
	if width >= cardColumns {
		p.note.right = left + noteWidth
		p.seen.left = p.note.right + Step
	}
	p.height = y + cardRow + Step
	return p
}

// cardHeight is the height of a card of a certain width.
func cardHeight(width float32) float32 { return planCard(width).height }
