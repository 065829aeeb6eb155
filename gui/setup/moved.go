package setup

import (
	"image"
	"math"
	"slices"

	"app.tonedesk/analysis/movement"
)

// MovedBy returns the setup with everything that lies on the picture moved with it, where the
// picture's top left lies at origin: spots, families set by hand, marked places, left-out areas and colours,
// and judged local colours. What comes to lie outside stays there, and may come back. What is
// said to be lost stays lost, and what is fixed does not lie on the picture. The workspace lies around the canvas, not on it: it is left as it
// is, to be found anew.
func (s Setup) MovedBy(t movement.Transform, origin image.Point) Setup {
	m := mover{t, origin}
	s.Places, s.Families = slices.Clone(s.Places), slices.Clone(s.Families)
	for i := range s.Places {
		m.place(&s.Places[i])
	}
	for i := range s.Families {
		m.place(&s.Families[i].Light)
		m.place(&s.Families[i].Shadow)
	}
	s.Focus = slices.Clone(s.Focus)
	for i := range s.Focus {
		m.place(&s.Focus[i])
	}
	s.Areas = slices.Clone(s.Areas)
	for i, area := range s.Areas {
		s.Areas[i] = m.area(area)
	}
	s.Seeds = slices.Clone(s.Seeds)
	for i := range s.Seeds {
		s.Seeds[i].At = m.point(s.Seeds[i].At)
	}
	s.Judged = slices.Clone(s.Judged)
	for i := range s.Judged {
		j := &s.Judged[i]
		j.Light.At, j.Shadow.At = m.point(j.Light.At), m.point(j.Shadow.At)
	}
	return s
}

// mover moves places of a source whose picture begins at origin.
type mover struct {
	by     movement.Transform
	origin image.Point
}

func (m mover) place(p *Place) {
	if p.Fixed != nil {
		return
	}
	if p.Area.Empty() {
		p.At = m.point(p.At)
		return
	}
	p.Area = m.area(p.Area)
	p.At = p.Centre()
}

// point returns the pixel on which a pixel's centre comes to lie.
func (m mover) point(p image.Point) image.Point {
	x, y := m.by.Apply(float64(p.X-m.origin.X)+0.5, float64(p.Y-m.origin.Y)+0.5)
	return image.Pt(int(math.Floor(x)), int(math.Floor(y))).Add(m.origin)
}

// area returns an upright area of the size and about the middle of what an area becomes, its
// sides exchanged where it is turned by about a quarter.
func (m mover) area(r image.Rectangle) image.Rectangle {
	r = r.Sub(m.origin)
	x, y := m.by.Apply(float64(r.Min.X+r.Max.X)/2, float64(r.Min.Y+r.Max.Y)/2)
	wide, high := float64(r.Dx())*m.by.Zoom(), float64(r.Dy())*m.by.Zoom()
	if turned := math.Abs(m.by.Degrees()); turned > 45 && turned < 135 {
		wide, high = high, wide
	}
	left, top := int(math.Round(x-wide/2)), int(math.Round(y-high/2))
	return image.Rect(left, top, left+max(1, int(math.Round(wide))), top+max(1, int(math.Round(high)))).Add(m.origin)
}
