package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/setup"
)

// mirrorLook draws the picture, the marks, the rubber band, the loupe.
type mirrorLook struct {
	m        *Mirror
	back     *canvas.Rectangle
	picture  *canvas.Raster
	overlays [overlays]*canvas.Raster
	marks    [setup.MaxSpots + 2*setup.MaxHandFamilies]*markShape
	other    *canvas.Raster // beside the picture
	edge     outline        // around it, where it lies over the picture
	band     outline
	cross    cross
	loupe    *canvas.Raster
	frame    outline // around the loupe
	sample   outline // around the averaged square in it
	ask      askLine
	line     *canvas.Rectangle // of the focus
}

// newMirrorLook makes all that is drawn, from below.
func newMirrorLook(m *Mirror) *mirrorLook {
	d := &m.drawn
	l := &mirrorLook{m: m, back: d.addBox(), picture: add(d, newPictureRaster(func() *image.RGBA { return m.picture }))}
	for i := range l.overlays {
		l.overlays[i] = add(d, newPictureRaster(func() *image.RGBA { return m.overlays[i] }))
	}
	for i := range l.marks {
		l.marks[i] = newMarkShape(d)
	}
	l.other, l.edge = add(d, newPictureRaster(m.Other)), newOutline(d)
	l.band, l.cross = newOutline(d), newCross(d)
	l.loupe, l.frame, l.sample = add(d, newPictureRaster(func() *image.RGBA { return m.loupe })), newOutline(d), newOutline(d)
	l.ask, l.line = newAskLine(d), add(d, newFocusLine(0))
	return l
}

// write shows what there is.
func (l *mirrorLook) write(size fyne.Size, of colours) {
	m, a := l.m, l.m.arrange(size)
	fill(l.back, of(theme.ColorNameBackground))
	showFocus(l.line, m.focused, of)
	for i, o := range l.overlays {
		show(o, m.overlays[i] != nil)
	}
	for i, s := range l.marks {
		var mark Mark
		if i < len(m.marks) {
			mark = m.marks[i]
		}
		s.write(mark, i < len(m.marks) && mark.shows(a.Picture.Bounds))
	}
	show(l.other, m.Other() != nil)
	l.edge.show(a.OnCorner)
	_, dragged := m.band()
	l.band.show(dragged)
	l.cross.show(m.keyed && m.focused)
	_, looking := m.looking()
	looking = looking && m.loupe != nil
	show(l.loupe, looking)
	l.frame.show(looking)
	l.sample.show(looking)
	l.ask.write(m.ask, of)
}

// place puts everything where it belongs.
func (l *mirrorLook) place(size fyne.Size) {
	m, a := l.m, l.m.arrange(size)
	f := a.Picture
	l.back.Resize(size)
	if f.Size.Width > 0 { // the outline of the focus is around the picture
		put(l.line, f.Pos.SubtractXY(FocusWidth, FocusWidth), f.Size.AddWidthHeight(2*FocusWidth, 2*FocusWidth))
	} else {
		put(l.line, fyne.Position{}, size)
	}
	put(l.picture, f.Pos, f.Size)
	for _, o := range l.overlays {
		put(o, f.Pos, f.Size)
	}
	for i := range min(len(m.marks), len(l.marks)) {
		l.marks[i].place(m.marks[i], f)
	}
	put(l.other, a.OtherPos, a.OtherSize)
	l.edge.place(a.OtherPos, a.OtherSize)
	if area, ok := m.band(); ok {
		l.band.place(f.box(area))
	}
	l.cross.place(f.Pane(m.key))
	l.placeLoupe(size, f)
	l.ask.place(size)
}

// loupeSide is the side of the loupe on the mirror.
const loupeSide = 9 * Step

// placeLoupe puts the loupe in the mirror's lower right corner, or in the lower left one
// while the pointer is where it would lie.
func (l *mirrorLook) placeLoupe(size fyne.Size, f Fit) {
	if l.m.loupe == nil {
		return
	}
	pos := fyne.NewPos(size.Width-loupeSide-Step, size.Height-loupeSide-Step)
	at, _ := l.m.looking()
	if p := f.Pane(at); p.X > pos.X-Step && p.Y > pos.Y-Step {
		pos.X = Step
	}
	put(l.loupe, pos, fyne.NewSquareSize(loupeSide))
	l.frame.place(pos, fyne.NewSquareSize(loupeSide))
	side := loupeSide / float32(l.m.loupe.Rect.Dx()) * float32(l.m.square)
	inset := (loupeSide - side) / 2
	l.sample.place(pos.AddXY(inset, inset), fyne.NewSquareSize(side))
}

// minSize leaves room for the loupe.
func (l *mirrorLook) minSize() fyne.Size { return fyne.NewSize(20*Step, 15*Step) }
