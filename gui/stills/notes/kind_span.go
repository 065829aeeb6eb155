package notes

import (
	"math"

	"app.tonedesk/gui/stills/ink"
)

// span is what is drawn from one point to another.
type span struct {
	From  ink.Point `json:"from"`
	To    ink.Point `json:"to"`
	Width float64   `json:"width"` // of its light core, in still pixels
}

func (s span) moved(way ink.Point) span {
	s.From, s.To = s.From.Plus(way), s.To.Plus(way)
	return s
}

// toCorner returns the span drawn to a corner opposite to From; even makes the sides equal.
func (s span) toCorner(p ink.Point, even bool) span {
	s.To = p
	if even {
		way := p.Minus(s.From)
		side := max(math.Abs(way.X), math.Abs(way.Y))
		s.To = s.From.Plus(ink.Pt(math.Copysign(side, way.X), math.Copysign(side, way.Y)))
	}
	return s
}

func (s span) fine() bool { return s.From.Fine() && s.To.Fine() && fineWidth(s.Width) }

// Arrow is a straight arrow. Its tip is at To.
type Arrow span

// The head's barbs: how long they are in line widths, besides a least length in pixels of
// what is drawn on, and how far they are turned from the shaft.
const (
	barbWidths = 4
	barbLeast  = 7
	barbTurn   = 0.5 // radians
)

func (a Arrow) Moved(way ink.Point) Shape { return Arrow(span(a).moved(way)) }

// DrawnTo turns the arrow, if asked for even, to the nearest eighth of a circle.
func (a Arrow) DrawnTo(p ink.Point, even bool) Shape {
	a.To = p
	if even {
		way := p.Minus(a.From)
		angle := math.Round(math.Atan2(way.Y, way.X)/(math.Pi/4)) * math.Pi / 4
		a.To = a.From.Plus(ink.Pt(way.Length(), 0).Turned(angle))
	}
	return a
}

func (a Arrow) fine() bool { return span(a).fine() }

func (a Arrow) draw(p *pen, _ string) {
	from, to, width := p.at(a.From), p.at(a.To), p.width(a.Width)
	p.line([]ink.Point{from, to}, false, width)
	if shaft := from.Minus(to); shaft.Length() > 0 {
		long := min(barbLeast*p.view.Pixel+barbWidths*width, 0.7*shaft.Length())
		back := shaft.Times(long / shaft.Length())
		p.line([]ink.Point{to.Plus(back.Turned(barbTurn)), to, to.Plus(back.Turned(-barbTurn))}, false, width)
	}
	p.number(from)
}

// Box is a rectangle between two opposite corners.
type Box span

func (b Box) Moved(way ink.Point) Shape { return Box(span(b).moved(way)) }

func (b Box) DrawnTo(p ink.Point, even bool) Shape { return Box(span(b).toCorner(p, even)) }

func (b Box) fine() bool { return span(b).fine() }

func (b Box) draw(p *pen, _ string) {
	from, to := p.at(b.From), p.at(b.To)
	p.line([]ink.Point{from, ink.Pt(to.X, from.Y), to, ink.Pt(from.X, to.Y)}, true, p.width(b.Width))
	p.number(ink.Pt(min(from.X, to.X), min(from.Y, to.Y)))
}

// Ring is an ellipse inside the box between two opposite corners.
type Ring span

func (r Ring) Moved(way ink.Point) Shape { return Ring(span(r).moved(way)) }

func (r Ring) DrawnTo(p ink.Point, even bool) Shape { return Ring(span(r).toCorner(p, even)) }

func (r Ring) fine() bool { return span(r).fine() }

func (r Ring) draw(p *pen, _ string) {
	from, to := p.at(r.From), p.at(r.To)
	half := to.Minus(from).Times(0.5)
	centre := from.Plus(half)
	p.line(ink.Ellipse(centre, half), true, p.width(r.Width))
	p.number(ink.Pt(centre.X, min(from.Y, to.Y)))
}
