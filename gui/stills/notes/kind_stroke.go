package notes

import "app.tonedesk/gui/stills/ink"

// Stroke is a free line, drawn by hand.
type Stroke struct {
	Points []ink.Point `json:"points"`
	Width  float64     `json:"width"` // of its light core, in still pixels
}

func (s Stroke) DrawnTo(p ink.Point, _ bool) Shape {
	s.Points = append(s.Points, p)
	return s
}

func (s Stroke) Moved(way ink.Point) Shape {
	s.Points = mapped(s.Points, way.Plus)
	return s
}

func (s Stroke) fine() bool { return finePoints(s.Points) && fineWidth(s.Width) }

func (s Stroke) draw(p *pen, _ string) {
	p.line(mapped(s.Points, p.at), false, p.width(s.Width))
	p.number(p.at(s.Points[0]))
}
