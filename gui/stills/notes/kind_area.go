package notes

import "app.tonedesk/gui/stills/ink"

// Side is what an area is painted as.
type Side string

const (
	Light  Side = "light"
	Shadow Side = "shadow"
)

// Area is a part of the picture, painted with a round brush as light or as shadow. All
// areas of a side are one: where strokes overlap no line divides them.
type Area struct {
	Side   Side        `json:"side"`
	Points []ink.Point `json:"points"`
	Width  float64     `json:"width"` // of the brush, in still pixels
}

func (a Area) DrawnTo(p ink.Point, _ bool) Shape {
	a.Points = append(a.Points, p)
	return a
}

func (a Area) Moved(way ink.Point) Shape {
	a.Points = mapped(a.Points, way.Plus)
	return a
}

func (a Area) fine() bool {
	return (a.Side == Light || a.Side == Shadow) && finePoints(a.Points) && fineWidth(a.Width)
}

func (a Area) draw(p *pen, _ string) {
	p.wash(a.Side, mapped(a.Points, p.at), max(a.Width*p.view.Scale, 1))
	p.number(p.at(a.Points[0]))
}
