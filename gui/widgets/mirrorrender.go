package widgets

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/setup"
)

// mirrorRenderer owns what is drawn: the picture, the marks, the rubber band, the loupe.
type mirrorRenderer struct {
	m       *Mirror
	back    *canvas.Rectangle
	picture *canvas.Raster
	marks   [setup.MaxSpots + 2*setup.MaxHandFamilies]markShape
	overlay [overlays]*canvas.Raster
	small   *canvas.Raster // beside the picture
	edge    outline        // around it, where it lies over the picture
	band    outline
	cross   cross
	loupe   *canvas.Raster
	frame   outline // around the loupe
	sample  outline // around the averaged square in it
	ask     *askLine
	focus   *canvas.Rectangle
	objects []fyne.CanvasObject
}

func newMirrorRenderer(m *Mirror) *mirrorRenderer {
	r := &mirrorRenderer{m: m, back: canvas.NewRectangle(color.Transparent), ask: newAskLine()}
	r.picture = newStill(func() *image.RGBA { return m.Img })
	r.loupe = newStill(func() *image.RGBA { return m.loupe })
	r.small = newStill(func() *image.RGBA { return m.aside() })
	r.band, r.frame, r.sample, r.edge = newOutline(), newOutline(), newOutline(), newOutline()
	r.cross = newCross()
	r.focus = canvas.NewRectangle(color.Transparent)
	r.focus.StrokeWidth = FocusWidth
	r.objects = []fyne.CanvasObject{r.back, r.picture}
	for i := range r.overlay {
		r.overlay[i] = newStill(func() *image.RGBA { return m.Over[i] })
		r.overlay[i].Hide()
		r.objects = append(r.objects, r.overlay[i])
	}
	for i := range r.marks {
		r.marks[i] = newMarkShape()
		r.objects = append(r.objects, r.marks[i].objects()...)
	}
	r.objects = append(r.objects, r.small)
	r.objects = append(r.objects, r.edge.objects()...)
	r.objects = append(r.objects, r.band.objects()...)
	r.objects = append(r.objects, r.cross.objects()...)
	r.objects = append(r.objects, r.loupe)
	r.objects = append(r.objects, r.frame.objects()...)
	r.objects = append(r.objects, r.sample.objects()...)
	r.objects = append(r.objects, r.ask.objects()...)
	r.objects = append(r.objects, r.focus)
	r.colour()
	return r
}

// newStill returns a raster that shows a ready image with square pixels.
func newStill(img func() *image.RGBA) *canvas.Raster {
	empty := image.NewRGBA(image.Rect(0, 0, 1, 1))
	raster := canvas.NewRaster(func(int, int) image.Image {
		if i := img(); i != nil {
			return i
		}
		return empty
	})
	raster.ScaleMode = canvas.ImageScalePixels
	return raster
}

func (r *mirrorRenderer) colour() {
	th := r.m.Theme()
	v := fyne.CurrentApp().Settings().ThemeVariant()
	r.back.FillColor = th.Color(theme.ColorNameBackground, v)
	r.focus.StrokeColor = color.Transparent
	if r.m.focused {
		r.focus.StrokeColor = th.Color(ColorNameFocusLine, v)
	}
	r.ask.colour(th, v)
}

// Place puts everything where it belongs.
func (r *mirrorRenderer) place() {
	size := r.m.Size()
	r.back.Resize(size)
	r.placeFocus(size)
	r.picture.Move(r.m.Fit.Pos)
	r.picture.Resize(r.m.Fit.Size)
	for _, o := range r.overlay {
		o.Move(r.m.Fit.Pos)
		o.Resize(r.m.Fit.Size)
	}
	r.placeBeside()
	r.placeMarks()
	r.placeBand()
	r.placeLoupe()
	r.ask.place(size)
}

// placeBeside puts the small picture beside the large one, or over its corner.
func (r *mirrorRenderer) placeBeside() {
	r.small.Hidden = r.m.aside() == nil
	r.small.Move(r.m.Laid.Small)
	r.small.Resize(r.m.Laid.Size)
	if r.m.Laid.Over {
		r.edge.show(r.m.Laid.Small, r.m.Laid.Size)
	} else {
		r.edge.hide()
	}
}

// placeFocus puts the outline around the picture, or around the mirror without one.
func (r *mirrorRenderer) placeFocus(size fyne.Size) {
	pos := fyne.Position{}
	if r.m.Fit.Size.Width > 0 {
		pos, size = r.m.Fit.Pos.SubtractXY(FocusWidth, FocusWidth), r.m.Fit.Size.AddWidthHeight(2*FocusWidth, 2*FocusWidth)
	}
	r.focus.Move(pos)
	r.focus.Resize(size)
}

func (r *mirrorRenderer) placeMarks() {
	for i := range r.marks {
		if i < len(r.m.Marks) && r.m.Marks[i].shows(r.m.Fit.Bounds) {
			r.marks[i].show(r.m.Marks[i], r.m.Fit, r.m.square)
		} else {
			r.marks[i].hide()
		}
	}
}

// placeBand shows the area that is being dragged over, and the key cursor.
func (r *mirrorRenderer) placeBand() {
	if area, ok := r.m.hand.band(); ok {
		r.band.show(r.m.Fit.box(area))
	} else {
		r.band.hide()
	}
	if at, ok := r.m.hand.cursor(); ok && r.m.focused {
		r.cross.show(r.m.Fit.Pane(at))
	} else {
		r.cross.hide()
	}
}

// loupeSide is the side of the loupe on the mirror.
const loupeSide = 9 * Step

// placeLoupe puts the loupe in the mirror's lower right corner, or in the lower left one
// while the pointer is where it would lie.
func (r *mirrorRenderer) placeLoupe() {
	at, over := r.m.hand.looking()
	if r.m.loupe == nil || !over {
		r.loupe.Hide()
		r.frame.hide()
		r.sample.hide()
		return
	}
	size := r.m.Size()
	pos := fyne.NewPos(size.Width-loupeSide-Step, size.Height-loupeSide-Step)
	if p := r.m.Fit.Pane(at); p.X > pos.X-Step && p.Y > pos.Y-Step {
		pos.X = Step
	}
	r.loupe.Move(pos)
	r.loupe.Resize(fyne.NewSquareSize(loupeSide))
	r.loupe.Show()
	r.frame.show(pos, fyne.NewSquareSize(loupeSide))
	cell := loupeSide / float32(r.m.loupe.Rect.Dx())
	side := cell * float32(r.m.square)
	inset := (loupeSide - side) / 2
	r.sample.show(pos.AddXY(inset, inset), fyne.NewSquareSize(side))
}

func (r *mirrorRenderer) setAsk(what string) {
	r.ask.set(what)
	r.ask.place(r.m.Size())
	r.placeBand()
}

// Layout is called by Fyne with the widget's size.
func (r *mirrorRenderer) Layout(fyne.Size) { r.m.layout() }

// MinSize is the mirror's.
func (r *mirrorRenderer) MinSize() fyne.Size { return r.m.MinSize() }

// Refresh draws with the theme's colours of now.
func (r *mirrorRenderer) Refresh() {
	r.colour()
	r.place()
	canvas.Refresh(r.m)
}

// Objects are all that is drawn, from below.
func (r *mirrorRenderer) Objects() []fyne.CanvasObject { return r.objects }

// Destroy has nothing to let go of.
func (r *mirrorRenderer) Destroy() {}
