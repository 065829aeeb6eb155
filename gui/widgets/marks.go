package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// Marks lie on any picture, so each is drawn twice, a light line on a wider dark one.
var (
	MarkLight = color.NRGBA{R: 0xf9, G: 0xf9, B: 0xf9, A: 0xff} // L* 98
	MarkDark  = color.NRGBA{R: 0x10, G: 0x10, B: 0x10, A: 0xff} // L* 4.7
)

// outline is a rectangle's edge, legible on any picture.
type outline struct{ dark, light *canvas.Rectangle }

func newOutline() outline {
	o := outline{dark: canvas.NewRectangle(color.Transparent), light: canvas.NewRectangle(color.Transparent)}
	o.dark.StrokeColor, o.dark.StrokeWidth = MarkDark, 3
	o.light.StrokeColor, o.light.StrokeWidth = MarkLight, 1
	o.hide()
	return o
}

func (o outline) objects() []fyne.CanvasObject { return []fyne.CanvasObject{o.dark, o.light} }

func (o outline) hide() {
	o.dark.Hide()
	o.light.Hide()
}

// show puts the light line's middle on the edge of the box.
func (o outline) show(pos fyne.Position, size fyne.Size) {
	o.light.Move(pos.SubtractXY(0.5, 0.5))
	o.light.Resize(size.AddWidthHeight(1, 1))
	o.dark.Move(pos.SubtractXY(1.5, 1.5))
	o.dark.Resize(size.AddWidthHeight(3, 3))
	o.dark.Show()
	o.light.Show()
}

// markShape is one spot: a ring for a spot, an outline for an area, and its letter.
type markShape struct {
	darkRing, lightRing *canvas.Circle
	area                outline
	shadow              [4]*canvas.Text
	letter              *canvas.Text
}

func newMarkShape() markShape {
	s := markShape{darkRing: canvas.NewCircle(color.Transparent), lightRing: canvas.NewCircle(color.Transparent), area: newOutline()}
	s.darkRing.StrokeColor, s.darkRing.StrokeWidth = MarkDark, 3.5
	s.lightRing.StrokeColor, s.lightRing.StrokeWidth = MarkLight, 1.5
	for i := range s.shadow {
		s.shadow[i] = canvas.NewText("", MarkDark)
	}
	s.letter = canvas.NewText("", MarkLight)
	for _, text := range append(s.shadow[:], s.letter) {
		text.TextStyle.Bold = true
		text.TextSize = TextSize
	}
	s.hide()
	return s
}

func (s *markShape) objects() []fyne.CanvasObject {
	all := append(s.area.objects(), s.darkRing, s.lightRing)
	for _, text := range s.shadow {
		all = append(all, text)
	}
	return append(all, s.letter)
}

func (s *markShape) hide() {
	for _, o := range s.objects() {
		o.Hide()
	}
}

// ringRadius is a spot's ring; a selected spot's is larger.
func ringRadius(selected bool) float32 {
	if selected {
		return 9
	}
	return 7
}

func (s *markShape) show(m Mark, f Fit, square int) {
	centre := f.Pane(m.centre())
	at := centre
	if m.Area.Empty() {
		s.area.hide()
		s.ring(centre, ringRadius(m.Selected), m.Selected)
		at.X += ringRadius(m.Selected) + 3
	} else {
		s.darkRing.Hide()
		s.lightRing.Hide()
		pos, size := f.box(m.Area.Intersect(f.Bounds))
		s.area.light.StrokeWidth = 1
		if m.Selected {
			s.area.light.StrokeWidth = 2
		}
		s.area.show(pos, size)
		at = pos.AddXY(4, 10)
	}
	name := m.Name
	if m.Moved {
		name += "?"
	}
	s.write(name, at, f)
}

func (s *markShape) ring(centre fyne.Position, radius float32, selected bool) {
	s.lightRing.StrokeWidth, s.darkRing.StrokeWidth = 1.5, 3.5
	if selected {
		s.lightRing.StrokeWidth, s.darkRing.StrokeWidth = 2.5, 4.5
	}
	s.lightRing.Move(centre.SubtractXY(radius, radius))
	s.lightRing.Resize(fyne.NewSquareSize(2 * radius))
	s.darkRing.Move(centre.SubtractXY(radius+1, radius+1))
	s.darkRing.Resize(fyne.NewSquareSize(2*radius + 2))
	s.darkRing.Show()
	s.lightRing.Show()
}

// write puts the letter with its left middle at p, inside the picture.
func (s *markShape) write(name string, p fyne.Position, f Fit) {
	if s.letter.Text != name {
		for _, text := range append(s.shadow[:], s.letter) {
			text.Text = name
			text.Refresh()
		}
	}
	size := s.letter.MinSize()
	p.Y -= size.Height / 2
	if right := f.Pos.X + f.Size.Width; p.X+size.Width > right {
		p.X -= size.Width + 2*ringRadius(true) + 6
	}
	p.Y = max(f.Pos.Y-3, min(p.Y, f.Pos.Y+f.Size.Height-size.Height+3))
	for i, by := range [4]fyne.Position{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: 1, Y: 1}} {
		s.shadow[i].Move(p.Add(by))
		s.shadow[i].Resize(size)
		s.shadow[i].Show()
	}
	s.letter.Move(p)
	s.letter.Resize(size)
	s.letter.Show()
}

// Cross is the key cursor: where the next spot would lie.
type cross [4]*canvas.Rectangle

func newCross() cross {
	var c cross
	for i := range c {
		fill := MarkDark
		if i >= 2 {
			fill = MarkLight
		}
		c[i] = canvas.NewRectangle(fill)
	}
	c.hide()
	return c
}

func (c cross) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{c[0], c[1], c[2], c[3]}
}

func (c cross) hide() {
	for _, r := range c {
		r.Hide()
	}
}

// crossArm is half the length of the cross.
const crossArm = 10

func (c cross) show(at fyne.Position) {
	put := func(r *canvas.Rectangle, w, h float32) {
		r.Move(at.SubtractXY(w/2, h/2))
		r.Resize(fyne.NewSize(w, h))
		r.Show()
	}
	put(c[0], 2*crossArm+2, 3)
	put(c[1], 3, 2*crossArm+2)
	put(c[2], 2*crossArm, 1)
	put(c[3], 1, 2*crossArm)
}

// askLine says, on the mirror, what the next click or drag is for.
type askLine struct {
	back *canvas.Rectangle
	text *canvas.Text
}

func newAskLine() *askLine {
	a := &askLine{back: canvas.NewRectangle(color.Transparent), text: canvas.NewText("", color.Transparent)}
	a.back.CornerRadius = Radius
	a.text.TextSize = TextSize
	a.text.Alignment = fyne.TextAlignCenter
	a.set("")
	return a
}

func (a *askLine) objects() []fyne.CanvasObject { return []fyne.CanvasObject{a.back, a.text} }

func (a *askLine) colour(th fyne.Theme, v fyne.ThemeVariant) {
	a.back.FillColor = th.Color(ColorNamePanel, v)
	a.text.Color = th.Color(theme.ColorNameForeground, v)
}

func (a *askLine) set(what string) {
	a.text.Text = what
	if what == "" {
		a.back.Hide()
		a.text.Hide()
		return
	}
	a.back.Show()
	a.text.Show()
	a.text.Refresh()
}

func (a *askLine) place(size fyne.Size) {
	text := a.text.MinSize()
	w, h := text.Width+2*Step, text.Height+Step
	pos := fyne.NewPos((size.Width-w)/2, Step)
	a.back.Move(pos)
	a.back.Resize(fyne.NewSize(w, h))
	a.text.Move(pos.AddXY(Step, Step/2))
	a.text.Resize(text)
}
