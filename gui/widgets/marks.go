package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// Marks lie on any picture, so each is drawn twice, a light line on a wider dark one.
var (
	MarkLight = color.NRGBA{R: 0xf9, G: 0xf9, B: 0xf9, A: 0xff} // L* 98
	MarkDark  = color.NRGBA{R: 0x10, G: 0x10, B: 0x10, A: 0xff} // L* 4.7
)

// outline is a rectangle's edge, legible on any picture.
type outline struct{ dark, light *canvas.Rectangle }

func newOutline(d *drawn) outline {
	o := outline{dark: d.addBox(), light: d.addBox()}
	o.dark.StrokeColor, o.dark.StrokeWidth = MarkDark, 3
	o.light.StrokeColor, o.light.StrokeWidth = MarkLight, 1
	o.show(false)
	return o
}

func (o outline) show(visible bool) {
	show(o.dark, visible)
	show(o.light, visible)
}

// place puts the light line's middle on the edge of the box.
func (o outline) place(pos fyne.Position, size fyne.Size) {
	put(o.light, pos.SubtractXY(0.5, 0.5), size.AddWidthHeight(1, 1))
	put(o.dark, pos.SubtractXY(1.5, 1.5), size.AddWidthHeight(3, 3))
}

// markShape is one spot: a ring for a spot, an outline for an area, and its letter. A
// selected one has thicker lines, and the ring of one that no longer holds is dashed.
type markShape struct {
	darkRing, lightRing *canvas.Circle
	dashes              *canvas.Raster // in place of the light ring
	area                outline
	letter              [5]*canvas.Text // four dark ones around a light one
	selected            bool
}

func newMarkShape(d *drawn) *markShape {
	s := &markShape{area: newOutline(d)}
	s.darkRing, s.lightRing = add(d, canvas.NewCircle(color.Transparent)), add(d, canvas.NewCircle(color.Transparent))
	s.darkRing.StrokeColor, s.lightRing.StrokeColor = MarkDark, MarkLight
	s.dashes = add(d, newDashedRing(func() float32 { return s.lightRing.StrokeWidth / s.dashes.Size().Width }))
	for i := range s.letter {
		s.letter[i] = d.addText(TextSize, fyne.TextStyle{Bold: true})
	}
	s.thicken(false)
	s.write(Mark{}, false)
	return s
}

// write shows a mark, or hides all of it.
func (s *markShape) write(m Mark, there bool) {
	show(s.darkRing, there && m.Area.Empty())
	show(s.lightRing, there && m.Area.Empty() && !m.Moved)
	show(s.dashes, there && m.Area.Empty() && m.Moved)
	s.area.show(there && !m.Area.Empty())
	if m.Selected != s.selected {
		s.thicken(m.Selected)
	}
	name := m.Name
	if m.Moved && !m.Area.Empty() { // an area's outline has no dashes
		name += "?"
	}
	for i, text := range s.letter {
		ink := MarkDark
		if i == len(s.letter)-1 {
			ink = MarkLight
		}
		say(text, name, ink)
		show(text, there)
	}
}

func (s *markShape) thicken(selected bool) {
	s.selected = selected
	s.lightRing.StrokeWidth, s.darkRing.StrokeWidth, s.area.light.StrokeWidth = 1.5, 3.5, 1
	if selected {
		s.lightRing.StrokeWidth, s.darkRing.StrokeWidth, s.area.light.StrokeWidth = 2.5, 4.5, 2
	}
	for _, o := range []fyne.CanvasObject{s.lightRing, s.darkRing, s.dashes, s.area.light} {
		o.Refresh()
	}
}

// ringRadius is a spot's ring; a selected spot's is larger.
func ringRadius(selected bool) float32 {
	if selected {
		return 9
	}
	return 7
}

// place puts a mark over its place in the picture, its letter beside the ring or inside the
// area.
func (s *markShape) place(m Mark, f Fit) {
	if m.Area.Empty() {
		centre, radius := f.Pane(m.At), ringRadius(m.Selected)
		put(s.lightRing, centre.SubtractXY(radius, radius), fyne.NewSquareSize(2*radius))
		line := s.lightRing.StrokeWidth // whose middle is on the circle's edge
		put(s.dashes, s.lightRing.Position().SubtractXY(line/2, line/2), s.lightRing.Size().AddWidthHeight(line, line))
		put(s.darkRing, centre.SubtractXY(radius+1, radius+1), fyne.NewSquareSize(2*radius+2))
		s.placeLetter(centre.AddXY(radius+3, 0), f)
		return
	}
	pos, size := f.box(m.Area.Intersect(f.Bounds))
	s.area.place(pos, size)
	s.placeLetter(pos.AddXY(4, 10), f)
}

// placeLetter puts the letter with its left middle at p, inside the picture.
func (s *markShape) placeLetter(p fyne.Position, f Fit) {
	size := s.letter[0].MinSize()
	p.Y -= size.Height / 2
	if right := f.Pos.X + f.Size.Width; p.X+size.Width > right {
		p.X -= size.Width + 2*ringRadius(true) + 6
	}
	p.Y = max(f.Pos.Y-3, min(p.Y, f.Pos.Y+f.Size.Height-size.Height+3))
	for i, by := range [len(s.letter)]fyne.Position{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: 1, Y: 1}, {}} {
		put(s.letter[i], p.Add(by), size)
	}
}

// cross is the key cursor: where the next spot would lie.
type cross [4]*canvas.Rectangle

func newCross(d *drawn) cross {
	var c cross
	for i, ink := range [len(c)]color.Color{MarkDark, MarkDark, MarkLight, MarkLight} {
		c[i] = add(d, canvas.NewRectangle(ink))
	}
	c.show(false)
	return c
}

func (c cross) show(visible bool) {
	for _, r := range c {
		show(r, visible)
	}
}

// crossArm is half the length of the cross.
const crossArm = 10

func (c cross) place(at fyne.Position) {
	for i, size := range [len(c)]fyne.Size{{Width: 2*crossArm + 2, Height: 3}, {Width: 3, Height: 2*crossArm + 2}, {Width: 2 * crossArm, Height: 1}, {Width: 1, Height: 2 * crossArm}} {
		put(c[i], at.SubtractXY(size.Width/2, size.Height/2), size)
	}
}
