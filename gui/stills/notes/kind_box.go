package notes

import "app.tonedesk/gui/stills/ink"

// Box is a rectangle between two corners.
type Box struct {
	From  Point   `json:"from"` // a corner
	To    Point   `json:"to"`   // the opposite one
	Width float64 `json:"width"`
}

func (b Box) Moved(way Point) Shape {
	b.From, b.To = b.From.Plus(way), b.To.Plus(way)
	return b
}

func (b Box) fine() bool { return b.From.Fine() && b.To.Fine() && fineWidth(b.Width) }

func (b Box) draw(p *pen, _ string) {
	from, to := p.at(b.From), p.at(b.To)
	p.line([]Point{from, ink.Pt(to.X, from.Y), to, ink.Pt(from.X, to.Y)}, true, p.width(b.Width))
	p.number(ink.Pt(min(from.X, to.X), min(from.Y, to.Y)))
}
