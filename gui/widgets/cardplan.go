package widgets

import (
	"fyne.io/fyne/v2"

	"app.tonedesk/gui/wording"
)

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
	if width < cardColumns {
		for i := range p.figures {
			p.figures[i] = span{left, right, y + cardBaseline}
			y += cardRow
		}
		p.note = span{left, right, y + cardBaseline}
		p.seen = p.note
	} else {
		middle := (left + right) / 2
		const rows = (len(cardFigures) + 1) / 2
		for i := range p.figures {
			column, row := i/rows, i%rows
			p.figures[i] = span{left, middle - Step, y + float32(row)*cardRow + cardBaseline}
			if column == 1 {
				p.figures[i].left, p.figures[i].right = middle+Step, right
			}
		}
		y += float32(rows) * cardRow
		p.note = span{left, left + noteWidth, y + cardBaseline}
		p.seen = span{left + noteWidth + Step, right, y + cardBaseline}
	}
	p.height = y + cardRow + Step
	return p
}

// cardHeight is the height of a card of a certain width.
func cardHeight(width float32) float32 { return planCard(width).height }
