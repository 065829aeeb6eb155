package notes

import "app.tonedesk/gui/stills/ink"

// Label is text on the picture: the note's text.
type Label struct {
	At   ink.Point `json:"at"`   // left end of the first line's foot
	Size float64   `json:"size"` // of its letters, in still pixels
}

func (l Label) Moved(way ink.Point) Shape {
	l.At = l.At.Plus(way)
	return l
}

func (l Label) fine() bool { return l.At.Fine() && fineWidth(l.Size) }

func (l Label) draw(p *pen, text string) {
	at, size := p.at(l.At), max(l.Size*p.view.Scale, leastText*p.view.Pixel)
	p.text(text, at, size)
	p.number(at.Minus(ink.Pt(0, size)))
}
