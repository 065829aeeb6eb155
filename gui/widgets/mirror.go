package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Mark is a spot or a measured area as the mirror shows it.
type Mark struct {
	Name     string
	At       image.Point     // source pixel
	Area     image.Rectangle // of a measured area, else empty
	Selected bool
	Moved    bool // the picture jumped since the spot was placed
}

// centre is the point by which the mark is taken hold of.
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
// drags and keys. It knows pixels of the source, not what they mean.
type Mirror struct {
	drawn
	shiftFocus
	acts MirrorActs

	picture  *image.RGBA
	bounds   image.Rectangle // of the picture, in source pixels
	part     image.Rectangle // of it that is shown
	flipped  bool
	small    *image.RGBA           // the whole picture made small, shown beside; nil: none
	halves   bool                  // the picture has one half of the room only
	before   *image.RGBA           // a picture from before, in the other half; nil: none
	overlays [overlays]*image.RGBA // drawn over the picture; nil: nothing
	loupe    *image.RGBA
	square   int             // side of the averaged square, in source pixels
	view     image.Rectangle // part that is asked for; empty for all
	marks    []Mark
	pen      MirrorPen // takes the pointer instead of spots; nil: none
	ask      string    // what the next click or drag is for; "" for measuring

	pointer
	mirrorParts
}

// MirrorActs are the callbacks for what the painter does with the mirror; none may be nil.
type MirrorActs struct {
	Click   func(at image.Point, add bool)           // a place was clicked
	Drag    func(area image.Rectangle, add bool)     // an area was dragged over
	Carry   func(mark int, to image.Point, end bool) // a mark is dragged
	Select  func(mark int)                           // a mark was pressed; -1: none
	Look    func(at image.Point, inside bool)        // the pointer, or the key cursor, is over a pixel
	Resized func()                                   // the mirror's size in display pixels changed
	Menu    func(at fyne.Position)                   // the commands are asked for, at a point of the window
	Keys    Keys                                     // get the keys that the mirror has no use for
}

// MirrorPen takes what the pointer does over the picture while something is drawn on it.
// Places are in pixels of the source; whole numbers lie on the pixels' corners.
type MirrorPen interface {
	Down(x, y float64, shift bool)
	Move(x, y float64, shift bool)
	Up()
	Nudge(by image.Point) bool // by arrow keys; false if there is nothing to move
}

// NewMirror returns an empty mirror.
func NewMirror(acts MirrorActs) *Mirror {
	m := &Mirror{acts: acts, square: 3}
	m.focus = focus{keys: acts.Keys, owner: m, changed: m.redraw}
	m.makeParts()
	m.least = fyne.NewSize(20*Step, 15*Step) // room for the loupe
	m.draw(m)
	return m
}

// SetPicture shows a picture, and beside it a small one, none where that is nil. The mirror
// does not copy them: they must stay as they are until the next SetPicture. bounds is the
// picture's place in the source, and part is what of it is shown. No picture shows nothing.
func (m *Mirror) SetPicture(picture, small *image.RGBA, bounds, part image.Rectangle, flipped bool) {
	changed := picture != m.picture || small != m.small // whoever paints, paints into another image
	m.picture, m.small, m.bounds, m.part, m.flipped = picture, small, bounds, part, flipped
	if bounds.Empty() {
		m.keyed = false
	} else {
		m.key = nearestIn(m.key, bounds)
	}
	m.redraw()
	if changed {
		m.pictureRaster.Refresh()
		m.otherRaster.Refresh()
	}
}

// SetHalves gives the picture one half of the room, and another the other half; or takes
// that back.
func (m *Mirror) SetHalves(on bool) {
	if on == m.halves {
		return
	}
	m.halves, m.before = on, nil
	m.redraw()
	m.acts.Resized()
}

// SetBefore shows a picture in the other half.
func (m *Mirror) SetBefore(img *image.RGBA) {
	m.before = img
	m.redraw()
	m.otherRaster.Refresh()
}

// Overlay is one of the pictures that can lie over the mirror's.
type Overlay int

// The overlays, lowest first.
const (
	OverlayBefore  Overlay = iota // the picture from before, in a comparison
	OverlayNotes                  // what is marked on a still
	OverlayOutline                // the family that is pointed at
	overlays
)

// SetOverlay lays a picture over the mirror's, whose size it takes; nil takes it away. The
// mirror does not copy it.
func (m *Mirror) SetOverlay(which Overlay, img *image.RGBA) {
	if img == nil && m.overlays[which] == nil {
		return
	}
	m.overlays[which] = img
	m.redraw()
	m.overlayRasters[which].Refresh()
}

// SetLoupe shows a picture in the corner, the pixels around the pointer, of which a square is
// averaged; nil hides it.
func (m *Mirror) SetLoupe(img *image.RGBA, square int) {
	m.loupe, m.square = img, square
	m.redraw()
	m.loupeRaster.Refresh()
}

// SetMarks shows the spots.
func (m *Mirror) SetMarks(marks []Mark) {
	m.marks = marks
	m.redraw()
}

// SetPen gives the pointer to a pen, or takes it back with nil.
func (m *Mirror) SetPen(pen MirrorPen) {
	if m.pen != pen {
		m.drop()
		m.pen = pen
	}
}

// Ask says what the next click or drag is for; empty when it is for measuring.
func (m *Mirror) Ask(what string) {
	m.ask = what
	m.drop()
}

// Picture returns what is shown; nil for nothing.
func (m *Mirror) Picture() *image.RGBA { return m.picture }

// Other returns the picture that stands beside: the whole one made small or, in halves, the
// one from before; nil for none.
func (m *Mirror) Other() *image.RGBA {
	if m.halves {
		return m.before
	}
	return m.small
}

// Overlay returns what lies over the picture; nil for nothing.
func (m *Mirror) Overlay(which Overlay) *image.RGBA { return m.overlays[which] }

// Bounds returns the whole picture's place in the source.
func (m *Mirror) Bounds() image.Rectangle { return m.bounds }

// Flipped reports whether left and right are exchanged.
func (m *Mirror) Flipped() bool { return m.flipped }

// Halves reports whether the picture has one half of the room only.
func (m *Mirror) Halves() bool { return m.halves }

// Marks returns the spots that were set last, also those outside of the part that is shown.
func (m *Mirror) Marks() []Mark { return m.marks }

// HasPen reports whether a pen takes the pointer.
func (m *Mirror) HasPen() bool { return m.pen != nil }

// Arrangement returns how the picture and the one beside it lie in the mirror.
func (m *Mirror) Arrangement() Arrangement { return m.arrange(m.Size()) }

// Fit returns how the picture lies in the mirror.
func (m *Mirror) Fit() Fit { return m.Arrangement().Picture }

// arrange keeps the part of the picture that is shown whole in a mirror of a size.
func (m *Mirror) arrange(size fyne.Size) Arrangement {
	room := roomIn(size)
	var small image.Point
	if m.small != nil {
		small = m.small.Rect.Size()
	}
	a := ArrangeBeside(m.part, small, room, m.Scale(), m.flipped)
	if m.halves {
		a = ArrangeHalves(m.part, room, m.Scale(), m.flipped)
	}
	a.OtherPos = a.OtherPos.AddXY(FocusWidth, FocusWidth)
	a.Picture.Pos = a.Picture.Pos.AddXY(FocusWidth, FocusWidth)
	return a
}

// Pixels is the size of the picture in the mirror, in display pixels.
func (m *Mirror) Pixels() image.Point {
	size, scale := m.Fit().Size, m.Scale()
	return image.Pt(int(size.Width*scale+0.5), int(size.Height*scale+0.5))
}

func roomIn(size fyne.Size) fyne.Size { return size.SubtractWidthHeight(2*FocusWidth, 2*FocusWidth) }

// Room is the size for the picture: all but the focus outline.
func (m *Mirror) Room() fyne.Size { return roomIn(m.Size()) }

// Scale is how many display pixels make a Fyne unit.
func (m *Mirror) Scale() float32 { return scaleOf(m) }

// scaleOf returns how many display pixels make a Fyne unit where o is; 1 while it is nowhere.
func scaleOf(o fyne.CanvasObject) float32 {
	if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil {
		return c.Scale()
	}
	return 1
}

// Resize lets the owner know that another size of the picture is wanted.
func (m *Mirror) Resize(size fyne.Size) {
	if size != m.Size() {
		m.drawn.Resize(size)
		m.acts.Resized()
	}
}

// Cursor is a cross: what is under its middle is what is read.
func (m *Mirror) Cursor() desktop.Cursor { return desktop.CrosshairCursor }
