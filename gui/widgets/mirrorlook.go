package widgets

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/setup"
)

// mirrorParts are what is drawn of a mirror: the picture, the marks, the rubber band, the loupe.
type mirrorParts struct {
	ground         color.Color // on which it lies: the toolkit paints a window's before all else
	pictureRaster  *canvas.Raster
	overlayRasters [overlays]*canvas.Raster
	shapes         [setup.MaxSpots + 2*setup.MaxManualFamilies]*markShape
	otherRaster    *canvas.Raster // beside the picture
	edge           outline        // around it, where it lies over the picture
	rubber         outline
	cross          cross
	loupeRaster    *canvas.Raster
	frame          outline // around the loupe
	sample         outline // around the averaged square in it
	askBack        *canvas.Rectangle
	askText        [askLines]*canvas.Text // what the next click or drag is for
	line           *canvas.Rectangle      // of the focus
}

// makeParts makes all that is drawn, from below.
func (m *Mirror) makeParts() {
	d := &m.drawn
	m.ground, m.pictureRaster = color.Transparent, add(d, newPictureRaster(func() *image.RGBA { return m.picture }))
	for i := range m.overlayRasters {
		m.overlayRasters[i] = add(d, newPictureRaster(func() *image.RGBA { return m.overlays[i] }))
	}
	for i := range m.shapes {
		m.shapes[i] = newMarkShape(d)
	}
	m.otherRaster, m.edge = add(d, newPictureRaster(m.Other)), newOutline(d)
	m.rubber, m.cross = newOutline(d), newCross(d)
	m.loupeRaster, m.frame, m.sample = add(d, newPictureRaster(func() *image.RGBA { img, _ := m.inLoupe(); return img })), newOutline(d), newOutline(d)
	m.askBack = add(d, newPanelBox())
	for i := range m.askText {
		m.askText[i] = m.addText(TextSize, fyne.TextStyle{})
	}
	m.line = add(d, newFocusLine(0))
}

func (m *Mirror) write(size fyne.Size, of colours) {
	a := m.arrange(size)
	m.ground = of(theme.ColorNameBackground)
	showFocus(m.line, m.focused && m.keyed, of)
	for i, o := range m.overlayRasters {
		show(o, m.overlays[i] != nil)
	}
	for i, s := range m.shapes {
		mark := nth(m.marks, i)
		s.write(mark, i < len(m.marks) && mark.shows(a.Picture.Bounds))
	}
	show(m.otherRaster, m.Other() != nil)
	m.edge.show(a.OnCorner)
	_, dragged := m.band()
	m.rubber.show(dragged)
	m.cross.show(m.keyed && m.focused)
	near, own := m.inLoupe()
	looking := near != nil && !(own && m.pen != nil) // a drawer looks at what is drawn
	show(m.loupeRaster, looking)
	m.frame.show(looking)
	m.sample.show(looking)
	fill(m.askBack, of(ColorNamePanel))
	show(m.askBack, m.ask != "")
	lines, letters := linesIn(m.ask, max(size.Width-4*Step, 1), askLines)
	for i, text := range m.askText {
		text.TextSize = letters
		say(text, nth(lines, i), of(theme.ColorNameForeground))
	}
}

func (m *Mirror) place(size fyne.Size) {
	a := m.arrange(size)
	f := a.Picture
	if f.Size.Width > 0 { // the outline of the focus is around the picture
		putAround(m.line, f.Pos, f.Size)
	} else {
		putAround(m.line, fyne.Position{}, size)
	}
	put(m.pictureRaster, f.Pos, f.Size)
	for _, o := range m.overlayRasters {
		put(o, f.Pos, f.Size)
	}
	for i := range min(len(m.marks), len(m.shapes)) {
		m.shapes[i].place(m.marks[i], f)
	}
	put(m.otherRaster, a.OtherPos, a.OtherSize)
	m.edge.place(a.OtherPos, a.OtherSize)
	if area, ok := m.band(); ok {
		m.rubber.place(f.box(area))
	}
	m.cross.place(f.Pane(m.key))
	m.placeLoupe(size, f)
	m.placeAsk(size, f)
}

// askLines is how many lines what is asked for may have.
const askLines = 3

// placeAsk stands what is asked for at the head of the picture, below chips.
func (m *Mirror) placeAsk(size fyne.Size, f Fit) {
	var box fyne.Size
	for _, text := range m.askText {
		if text.Text != "" {
			box = fyne.NewSize(max(box.Width, text.MinSize().Width), box.Height+text.MinSize().Height)
		}
	}
	box = box.AddWidthHeight(2*Step, Step)
	at := fyne.NewPos((size.Width-box.Width)/2, Step)
	if m.head > 0 {
		at.Y = max(min(f.Pos.Y+m.head+Step/2, size.Height-box.Height), 0)
	}
	put(m.askBack, at, box)
	for i, text := range m.askText {
		placeText(text, (size.Width-text.MinSize().Width)/2, at.Y+Step/2+float32(i)*text.MinSize().Height)
	}
}

// The loupe's cells are as large as the picture leaves room for: so that its side is about a quarter
// of the picture's shorter one (our choice, so that it hides little), but its pixels can be told apart.
const (
	leastCell, mostCell = 3, 5
	loupeShare          = 4 // of the picture's shorter side
)

// loupeSide is the side of a loupe of so many cells over a picture.
func loupeSide(picture fyne.Size, cells int) float32 {
	cell := float32(int(min(picture.Width, picture.Height) / loupeShare / float32(cells)))
	return float32(cells) * min(max(cell, leastCell), mostCell)
}

// placeLoupe puts the loupe in the picture's lower right corner, above what covers its foot,
// or in the lower left one while the pointer is where it would lie.
func (m *Mirror) placeLoupe(size fyne.Size, f Fit) {
	img, own := m.inLoupe()
	if img == nil {
		return
	}
	side := loupeSide(f.Size, img.Rect.Dx())
	pos := fyne.NewPos(f.Pos.X+f.Size.Width-side-Step, max(f.Pos.Y+f.Size.Height-m.foot-side-Step, Step))
	at, _ := m.looking()
	if p := f.Pane(at); own && within(p, pos, fyne.NewSize(side, size.Height-pos.Y), Step) {
		pos.X = f.Pos.X + Step
	}
	put(m.loupeRaster, pos, fyne.NewSquareSize(side))
	m.frame.place(pos, fyne.NewSquareSize(side))
	square := side / float32(img.Rect.Dx()) * float32(m.square)
	inset := (side - square) / 2
	m.sample.place(pos.AddXY(inset, inset), fyne.NewSquareSize(square))
}
