package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
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

// Centre is the point by which the mark is taken hold of.
func (m Mark) centre() image.Point {
	if m.Area.Empty() {
		return m.At
	}
	return m.Area.Min.Add(m.Area.Size().Div(2))
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

	Img    *image.RGBA
	Beside *image.RGBA // the whole picture made small; nil: none
	Before *image.RGBA // a picture from before in the other half; nil: none
	Halves bool        // the picture has one half of the room only
	loupe  *image.RGBA
	Over   [overlays]*image.RGBA // drawn over the picture; nil: nothing
	Laid   Laid
	Fit    Fit
	Bounds image.Rectangle // of the picture, in source pixels
	Part   image.Rectangle // of it that img shows
	View   image.Rectangle // part that is wished for; empty for all
	Pen    MirrorPen       // takes the pointer instead of spots; nil: none
	Flip   bool
	Marks  []Mark
	square int // side of the averaged square, in source pixels

	hand    pointer
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
	if m.Pen != pen {
		m.hand.drop()
		m.Pen = pen
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

// SetPicture shows img, and beside it the small one, none where that is nil. The mirror
// does not copy them: they must stay as they are until the next SetPicture. bounds is the
// picture's place in the source, and part is what of it img shows. A nil img shows nothing.
func (m *Mirror) SetPicture(img, beside *image.RGBA, bounds, part image.Rectangle, flipped bool) {
	same := img == m.Img && beside == m.Beside // the worker paints into another image whenever it paints
	sameSize := SizeOf(beside) == SizeOf(m.Beside)
	m.Img, m.Beside = img, beside
	if bounds != m.Bounds || part != m.Part || flipped != m.Flip || !sameSize {
		m.Bounds, m.Part, m.Flip = bounds, part, flipped
		m.hand.keepIn(bounds)
		m.layout()
	}
	if m.r != nil && !same {
		m.r.picture.Refresh()
		m.r.small.Refresh()
	}
}

// SetHalves gives the picture one half of the room, and another the other half; or takes
// that back.
func (m *Mirror) SetHalves(on bool) {
	if on == m.Halves {
		return
	}
	m.Halves, m.Before = on, nil
	m.layout()
	m.Acts.Resized()
}

// SetBefore shows img in the other half.
func (m *Mirror) SetBefore(img *image.RGBA) {
	if m.Before = img; m.r != nil {
		m.r.placeBeside()
		m.r.small.Refresh()
	}
}

// aside is the picture that stands beside the large one; nil: none.
func (m *Mirror) aside() *image.RGBA {
	if m.Halves {
		return m.Before
	}
	return m.Beside
}

// SizeOf returns the size of an image that may be nil.
func SizeOf(img *image.RGBA) image.Point {
	if img == nil {
		return image.Point{}
	}
	return img.Rect.Size()
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
	OverlayBefore  overlay = iota // the picture from before, in a comparison
	OverlayNotes                  // what is marked on a still
	OverlayOutline                // the family that is pointed at
	overlays
)

// SetOverlay lays img over the picture, whose size in the mirror it takes; nil takes it away.
// The mirror does not copy it.
func (m *Mirror) SetOverlay(which overlay, img *image.RGBA) {
	if img == nil && m.Over[which] == nil {
		return
	}
	m.Over[which] = img
	if m.r != nil {
		m.r.overlay[which].Hidden = img == nil
		m.r.overlay[which].Refresh()
	}
}

// Pixels is the size of the picture in the mirror, in display pixels.
func (m *Mirror) Pixels() image.Point {
	scale := m.Scale()
	return image.Pt(int(m.Fit.Size.Width*scale+0.5), int(m.Fit.Size.Height*scale+0.5))
}

// SetMarks shows the spots.
func (m *Mirror) SetMarks(marks []Mark) {
	m.Marks = marks
	m.layoutMarks()
}

// Ask tells what the next click or drag is for; empty when it is for measuring.
func (m *Mirror) Ask(what string) {
	m.hand.drop()
	if m.r != nil {
		m.r.setAsk(what)
	}
}

// Room is the size for the picture: all but the focus outline.
func (m *Mirror) Room() fyne.Size {
	size := m.Size()
	return fyne.NewSize(size.Width-2*FocusWidth, size.Height-2*FocusWidth)
}

func (m *Mirror) Scale() float32 {
	if c := fyne.CurrentApp().Driver().CanvasForObject(m); c != nil {
		return c.Scale()
	}
	return 1
}

func (m *Mirror) layout() {
	if m.Halves {
		m.Laid = LayHalves(m.Part, m.Room(), m.Scale(), m.Flip)
	} else {
		m.Laid = LayBeside(m.Part, SizeOf(m.Beside), m.Room(), m.Scale(), m.Flip)
	}
	m.Laid.Small = m.Laid.Small.AddXY(FocusWidth, FocusWidth)
	m.Laid.Picture.Pos = m.Laid.Picture.Pos.AddXY(FocusWidth, FocusWidth)
	m.Fit = m.Laid.Picture
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
