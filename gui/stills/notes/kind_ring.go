package notes

import "app.tonedesk/gui/stills/ink"

// Ring is an ellipse inside the box between two corners.
type Ring struct {
	From  Point   `json:"from"` // a corner
	To    Point   `json:"to"`   // the opposite one
	Width float64 `json:"width"`
}

func (r Ring) Moved(way Point) Shape {
	r.From, r.To = r.From.Plus(way), r.To.Plus(way)
	return r
}

func (r Ring) fine() bool { return Box(r).fine() }

func (r Ring) draw(p *pen, _ string) {
	from, to := p.at(r.From), p.at(r.To)
	half := to.Minus(from).Times(0.5)
	centre := from.Plus(half)
	p.line(ink.Ellipse(centre, half), true, p.width(r.Width))
	p.number(ink.Pt(centre.X, min(from.Y, to.Y)))
}
