package widgets

import (
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/analysis/flashes"
)

// Mark is a spot or a measured area as the mirror shows it.
type Mark struct {
	Name     string
	At       image.Point     // source pixel
	Area     image.Rectangle // of a measured area, else empty
	Selected bool
	Moved    bool // the picture jumped since the spot was placed
	Fixed    bool // it lies outside of the picture: it is neither shown nor taken hold of
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
		return m.At.In(part) && !m.Fixed
	}
	return m.Area.Overlaps(part)
}

// Mirror shows the watched picture in a view, with the spots on it, and takes clicks,
// drags and keys. It knows pixels of the source, not what they mean.
type Mirror struct {
	drawn
	shiftFocus
	acts MirrorActs

	sight // that is shown
	shutter
	loupe  *image.RGBA
	near   *image.RGBA     // around the pointer where that is elsewhere on the screen
	square int             // side of the averaged square, in source pixels
	view   image.Rectangle // part that is asked for; empty for all
	marks  []Mark
	pen    MirrorPen // takes the pointer instead of spots; nil: none
	head   float32   // so much of it is covered at the top left
	foot   float32   // and so much at its foot
	ask    string    // what the next click or drag is for; "" for measuring

	pointer
	divider
	mirrorParts
}

// MirrorActs are the callbacks for what the painter does with the mirror; none may be nil, but
// for Later: without it the mirror may flash, and knows no long press.
type MirrorActs struct {
	Click   func(at image.Point, add bool)                     // a place was clicked
	Drag    func(area image.Rectangle, add bool)               // an area was dragged over
	Carry   func(mark int, to image.Point, end bool)           // a mark is dragged
	Select  func(mark int)                                     // a mark was pressed; -1: none
	Look    func(at image.Point, inside bool)                  // the pointer, or the key cursor, is over a pixel
	Resized func()                                             // the mirror's size in display pixels changed
	Menu    func(at fyne.Position)                             // the commands are asked for, at a point of the window
	Later   func(after time.Duration, do func()) (stop func()) // runs a function after a while
	Keys    Keys                                               // get the keys that the mirror has no use for
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
	m.Clock = time.Now
	if acts.Later != nil {
		m.Flashes.Every = flashes.Every
	}
	m.focus = focus{keys: acts.Keys, owner: m, changed: m.redraw}
	m.makeParts()
	m.least = fyne.NewSize(20*Step, 15*Step) // room for the loupe
	m.draw(m)
	return m
}

// SetPicture shows a picture, and beside it a small one, none where that is nil. They must stay
// as they are until the next SetPicture returns. bounds is the picture's place in the source,
// and part is what of it is shown. No picture shows nothing.
func (m *Mirror) SetPicture(picture, small *image.RGBA, bounds, part image.Rectangle, flipped bool) {
	if next := &m.next; picture != next.picture || small != next.small { // whoever paints, paints into another image
		m.renew(m.pictureRaster)
		m.renew(m.otherRaster)
	}
	m.next.picture, m.next.small, m.next.bounds, m.next.part, m.next.flipped = picture, small, bounds, part, flipped
	m.present()
}

// SetHalves gives the picture one half of the room, and another the other half; or takes
// that back.
func (m *Mirror) SetHalves(on bool) {
	if on == m.next.halves {
		return
	}
	m.next.halves, m.next.before = on, nil
	m.present()
	m.acts.Resized()
}

// SetBefore shows a picture in the other half.
func (m *Mirror) SetBefore(img *image.RGBA) {
	m.next.before = img
	m.renew(m.otherRaster)
	m.present()
}

// Overlay is one of the pictures that can lie over the mirror's.
type Overlay int

// The overlays, lowest first.
const (
	OverlayNotes   Overlay = iota // what is marked on a still
	OverlayBefore                 // the picture from before, in a comparison, with the names of both
	OverlayOutline                // the family that is pointed at
	OverlayLight                  // from where the light comes
	OverlayFocus                  // where the eye should go, and where the contrast is
	OverlayNames                  // which picture is which, in a comparison
	overlays
)

// SetOverlay lays a picture over the mirror's, whose size it takes; nil takes it away. The
// mirror does not copy it.
func (m *Mirror) SetOverlay(which Overlay, img *image.RGBA) {
	if img == nil && m.next.overlays[which] == nil {
		return
	}
	m.next.overlays[which] = img
	m.renew(m.overlayRasters[which])
	m.present()
}

// SetLoupe shows a picture in the corner, the pixels around the pointer, of which a square is
// averaged; nil hides it.
func (m *Mirror) SetLoupe(img *image.RGBA, square int) {
	m.loupe, m.square = img, square
	m.redraw()
	m.loupeRaster.Refresh()
}

// SetNear shows what lies around the pointer elsewhere on the screen, where the loupe is, until nil
// is set. It must stay as it is.
func (m *Mirror) SetNear(img *image.RGBA) {
	m.near = img
	m.redraw()
	m.loupeRaster.Refresh()
}

// inLoupe is what the loupe shows, and whether that is of the mirror's own picture.
func (m *Mirror) inLoupe() (img *image.RGBA, own bool) {
	_, looking := m.looking()
	switch {
	case m.near != nil:
		return m.near, false
	case looking:
		return m.loupe, true
	}
	return nil, false
}

// SetCovered keeps what the mirror asks for below so much of its top, and the loupe above so much of
// its foot, which something covers.
func (m *Mirror) SetCovered(head, foot float32) {
	if m.head != head || m.foot != foot {
		m.head, m.foot = head, foot
		m.redraw()
	}
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

// Asked is what the next click or drag is for, as it was said.
func (m *Mirror) Asked() string { return m.ask }

// Picture returns what is shown; nil for nothing.
func (m *Mirror) Picture() *image.RGBA { return m.picture }

// Overlay returns what lies over the picture, as it was set last; nil for nothing.
func (m *Mirror) Overlay(which Overlay) *image.RGBA { return m.next.overlays[which] }

// Bounds returns the whole picture's place in the source.
func (m *Mirror) Bounds() image.Rectangle { return m.bounds }

// Flipped reports whether left and right are exchanged.
func (m *Mirror) Flipped() bool { return m.flipped }

// Halves reports whether the picture is to have one half of the room only.
func (m *Mirror) Halves() bool { return m.next.halves }

// Marks returns the spots that were set last, also those outside of the part that is shown.
func (m *Mirror) Marks() []Mark { return m.marks }

// HasPen reports whether a pen takes the pointer.
func (m *Mirror) HasPen() bool { return m.pen != nil }

// Arrangement returns how the picture and the one beside it lie in the mirror.
func (m *Mirror) Arrangement() Arrangement { return m.arrange(m.Size()) }

// Fit returns how the picture lies in the mirror.
func (m *Mirror) Fit() Fit { return m.Arrangement().Picture }

// NextFit returns how the picture that was set last will lie in the mirror, for what is drawn
// over it.
func (m *Mirror) NextFit() Fit { return m.next.arrange(m.Size(), m.Scale()).Picture }

func (m *Mirror) arrange(size fyne.Size) Arrangement { return m.sight.arrange(size, m.Scale()) }

// Pixels is the size of the picture that was set last in the mirror, in display pixels.
func (m *Mirror) Pixels() image.Point {
	size, scale := m.NextFit().Size, m.Scale()
	return image.Pt(int(size.Width*scale+0.5), int(size.Height*scale+0.5))
}

// Room is the size for the picture: all there is. The outline of the focus lies around it.
func (m *Mirror) Room() fyne.Size { return m.Size() }

// Scale is how many display pixels make a Fyne unit.
func (m *Mirror) Scale() float32 { return scaleOf(m) }

// SourceAt returns the place of the source that shows at a pixel of the window's inside, whatever lies
// over it, and whether one does.
func (m *Mirror) SourceAt(pixel image.Point) (image.Point, bool) {
	scale := m.Scale()
	corner := fyne.CurrentApp().Driver().AbsolutePositionForObject(m)
	in := fyne.NewPos((float32(pixel.X)+0.5)/scale, (float32(pixel.Y)+0.5)/scale).Subtract(corner)
	if in.X < 0 || in.Y < 0 || in.X >= m.Size().Width || in.Y >= m.Size().Height {
		return image.Point{}, false
	}
	return m.Fit().source(in)
}

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
