package gui

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Mark is a spot or a measured area as the mirror shows it.
type Mark struct {
	Name     string
	At       image.Point     // source pixel
	Area     image.Rectangle // of a measured area, else empty
	Selected bool
	Moved    bool // the picture jumped since the spot was placed
}

// shows reports whether any of the mark lies in the part of the picture that is shown.
func (m Mark) shows(part image.Rectangle) bool {
	if m.Area.Empty() {
		return m.At.In(part)
	}
	return m.Area.Overlaps(part)
}

// Mirror shows the watched picture in a view, with the spots on it, and takes clicks,
// drags and keys. It knows pixels of the source, not what they mean. Use it on the Fyne
// goroutine only.
type Mirror struct {
	widget.BaseWidget

	// Acts are told what the painter does; none may be nil.
	Acts MirrorActs

	img    *image.RGBA
	loupe  *image.RGBA
	over   [overlays]*image.RGBA // drawn over the picture; nil: nothing
	fit    fit
	bounds image.Rectangle // of the picture, in source pixels
	part   image.Rectangle // of it that img shows
	view   image.Rectangle // part that is wished for; empty for all
	pen    MirrorPen       // takes the pointer instead of spots; nil: none
	flip   bool
	marks  []Mark
	square int // side of the averaged square, in source pixels

	hand    hand
	pinch   pinch
	focused bool
	r       *mirrorRenderer
}

// MirrorActs is what a mirror tells its owner.
type MirrorActs struct {
	Click   func(at image.Point, add bool)                 // a place was clicked
	Drag    func(area image.Rectangle, add bool)           // an area was dragged over
	Carry   func(mark int, to image.Point, end bool)       // a mark is dragged
	Select  func(mark int)                                 // a mark was pressed; -1: none
	Look    func(at image.Point, inside bool)              // the pointer, or the key cursor, is over a pixel
	Resized func()                                         // the mirror's size in display pixels changed
	Menu    func(at fyne.Position)                         // the commands are asked for, at a point of the window
	Key     func(key fyne.KeyName, shift bool) (used bool) // a key came that the mirror has no use for
	Rune    func(r rune)
	Short   func(s fyne.Shortcut)
}

// MirrorPen takes what the pointer does over the picture while something is drawn on it.
// Places are in pixels of the source; whole numbers lie on the pixels' corners.
type MirrorPen interface {
	Down(x, y float64, shift bool)
	Move(x, y float64, shift bool)
	Up()
	Nudge(by image.Point) bool // by arrow keys; false if there is nothing to move
}

// SetPen gives the pointer to a pen, or takes it back with nil.
func (m *Mirror) SetPen(pen MirrorPen) {
	if m.pen != pen {
		m.hand.drop()
		m.pen = pen
	}
}

var (
	_ desktop.Mouseable  = (*Mirror)(nil)
	_ desktop.Hoverable  = (*Mirror)(nil)
	_ desktop.Cursorable = (*Mirror)(nil)
	_ desktop.Keyable    = (*Mirror)(nil)
	_ fyne.Draggable     = (*Mirror)(nil)
	_ fyne.Scrollable    = (*Mirror)(nil)
	_ fyne.Focusable     = (*Mirror)(nil)
	_ fyne.Shortcutable  = (*Mirror)(nil)
)

// NewMirror returns an empty mirror.
func NewMirror() *Mirror {
	m := &Mirror{square: 3}
	m.hand.owner = m
	m.ExtendBaseWidget(m)
	return m
}

// SetPicture shows img, which the mirror does not copy: it must stay as it is until the
// next SetPicture. bounds is the picture's place in the source, and part is what of it img
// shows. A nil img shows nothing.
func (m *Mirror) SetPicture(img *image.RGBA, bounds, part image.Rectangle, flipped bool) {
	same := img == m.img // the worker paints into another image whenever it paints
	m.img = img
	if bounds != m.bounds || part != m.part || flipped != m.flip {
		m.bounds, m.part, m.flip = bounds, part, flipped
		m.hand.keepIn(bounds)
		m.layout()
	}
	if m.r != nil && !same {
		m.r.picture.Refresh()
	}
}

// SetLoupe shows img in the corner, the pixels around the pointer; nil hides it.
func (m *Mirror) SetLoupe(img *image.RGBA, square int) {
	m.loupe, m.square = img, square
	if m.r != nil {
		m.r.placeLoupe()
		m.r.loupe.Refresh()
	}
}

// overlay is one of the pictures that can lie over the mirror's, lowest first.
type overlay int

const (
	overlayBefore  overlay = iota // the picture from before, in a comparison
	overlayNotes                  // what is marked on a still
	overlayOutline                // the family that is pointed at
	overlays
)

// SetOverlay lays img over the picture, whose size in the mirror it takes; nil takes it away.
// The mirror does not copy it.
func (m *Mirror) SetOverlay(which overlay, img *image.RGBA) {
	if img == nil && m.over[which] == nil {
		return
	}
	m.over[which] = img
	if m.r != nil {
		m.r.overlay[which].Hidden = img == nil
		m.r.overlay[which].Refresh()
	}
}

// pixels is the size of the picture in the mirror, in display pixels.
func (m *Mirror) pixels() image.Point {
	scale := m.scale()
	return image.Pt(int(m.fit.Size.Width*scale+0.5), int(m.fit.Size.Height*scale+0.5))
}

// SetMarks shows the spots.
func (m *Mirror) SetMarks(marks []Mark) {
	m.marks = marks
	m.layoutMarks()
}

// Ask tells what the next click or drag is for; empty when it is for measuring.
func (m *Mirror) Ask(what string) {
	m.hand.drop()
	if m.r != nil {
		m.r.setAsk(what)
	}
}

// room is the size for the picture: all but the focus outline.
func (m *Mirror) room() fyne.Size {
	size := m.Size()
	return fyne.NewSize(size.Width-2*FocusWidth, size.Height-2*FocusWidth)
}

func (m *Mirror) scale() float32 {
	if c := fyne.CurrentApp().Driver().CanvasForObject(m); c != nil {
		return c.Scale()
	}
	return 1
}

func (m *Mirror) layout() {
	m.fit = fitPicture(m.part, m.room(), m.scale(), m.flip)
	m.fit.Pos = m.fit.Pos.AddXY(FocusWidth, FocusWidth)
	if m.r != nil {
		m.r.place()
	}
}

func (m *Mirror) layoutMarks() {
	if m.r != nil {
		m.r.placeMarks()
	}
}

// Resize keeps the picture whole in the new size.
func (m *Mirror) Resize(size fyne.Size) {
	if size == m.Size() {
		return
	}
	m.BaseWidget.Resize(size)
	m.layout()
	if m.Acts.Resized != nil {
		m.Acts.Resized()
	}
}

// MinSize leaves room for the loupe.
func (m *Mirror) MinSize() fyne.Size { return fyne.NewSize(20*Step, 15*Step) }

// Cursor is a cross: what is under its middle is what is read.
func (m *Mirror) Cursor() desktop.Cursor { return desktop.CrosshairCursor }

// CreateRenderer makes the canvas objects.
func (m *Mirror) CreateRenderer() fyne.WidgetRenderer {
	m.r = newMirrorRenderer(m)
	return m.r
}

// mirrorRenderer owns what is drawn: the picture, the marks, the rubber band, the loupe.
type mirrorRenderer struct {
	m       *Mirror
	back    *canvas.Rectangle
	picture *canvas.Raster
	marks   [maxSpots + 2*maxHandFamilies]markShape
	overlay [overlays]*canvas.Raster
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
	r.picture = newStill(func() *image.RGBA { return m.img })
	r.loupe = newStill(func() *image.RGBA { return m.loupe })
	r.band, r.frame, r.sample = newOutline(), newOutline(), newOutline()
	r.cross = newCross()
	r.focus = canvas.NewRectangle(color.Transparent)
	r.focus.StrokeWidth = FocusWidth
	r.objects = []fyne.CanvasObject{r.back, r.picture}
	for i := range r.overlay {
		r.overlay[i] = newStill(func() *image.RGBA { return m.over[i] })
		r.overlay[i].Hide()
		r.objects = append(r.objects, r.overlay[i])
	}
	for i := range r.marks {
		r.marks[i] = newMarkShape()
		r.objects = append(r.objects, r.marks[i].objects()...)
	}
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

// place puts everything where it belongs.
func (r *mirrorRenderer) place() {
	size := r.m.Size()
	r.back.Resize(size)
	r.placeFocus(size)
	r.picture.Move(r.m.fit.Pos)
	r.picture.Resize(r.m.fit.Size)
	for _, o := range r.overlay {
		o.Move(r.m.fit.Pos)
		o.Resize(r.m.fit.Size)
	}
	r.placeMarks()
	r.placeBand()
	r.placeLoupe()
	r.ask.place(size)
}

// placeFocus puts the outline around the picture, or around the mirror without one.
func (r *mirrorRenderer) placeFocus(size fyne.Size) {
	pos := fyne.Position{}
	if r.m.fit.Size.Width > 0 {
		pos, size = r.m.fit.Pos.SubtractXY(FocusWidth, FocusWidth), r.m.fit.Size.AddWidthHeight(2*FocusWidth, 2*FocusWidth)
	}
	r.focus.Move(pos)
	r.focus.Resize(size)
}

func (r *mirrorRenderer) placeMarks() {
	for i := range r.marks {
		if i < len(r.m.marks) && r.m.marks[i].shows(r.m.fit.Bounds) {
			r.marks[i].show(r.m.marks[i], r.m.fit, r.m.square)
		} else {
			r.marks[i].hide()
		}
	}
}

// placeBand shows the area that is being dragged over, and the key cursor.
func (r *mirrorRenderer) placeBand() {
	if area, ok := r.m.hand.band(); ok {
		r.band.show(r.m.fit.box(area))
	} else {
		r.band.hide()
	}
	if at, ok := r.m.hand.cursor(); ok && r.m.focused {
		r.cross.show(r.m.fit.pane(at))
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
	if p := r.m.fit.pane(at); p.X > pos.X-Step && p.Y > pos.Y-Step {
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
