package widgets

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
)

// zoomStep is by how much a turn of the wheel or a key enlarges the picture.
const zoomStep = 1.25

// LeastView is the side of the smallest part of a picture that fills the mirror, in pixels.
const LeastView = 16

// PartShown returns the part of a picture that the mirror shows: view, as far as it lies in
// bounds, or all of the picture.
func PartShown(view, bounds image.Rectangle) image.Rectangle {
	if part := view.Intersect(bounds); part.Dx() >= LeastView && part.Dy() >= LeastView {
		return part
	}
	return bounds
}

// zoomed returns the part that is shown after the picture was enlarged by a factor, so that
// the pixel at stays where it is; the empty rectangle is all of the picture. The shape of
// the whole picture is kept.
func zoomed(part, bounds image.Rectangle, at image.Point, by float64) image.Rectangle {
	w, h := float64(part.Dx())/by, float64(part.Dy())/by
	least := max(LeastView/min(w, h), 1)
	w, h = w*least, h*least
	if w >= float64(bounds.Dx()) || h >= float64(bounds.Dy()) {
		return image.Rectangle{}
	}
	fx := (float64(at.X-part.Min.X) + 0.5) / float64(part.Dx())
	fy := (float64(at.Y-part.Min.Y) + 0.5) / float64(part.Dy())
	size := image.Pt(int(math.Round(w)), int(math.Round(h)))
	corner := image.Pt(int(math.Round(float64(at.X)+0.5-fx*w)), int(math.Round(float64(at.Y)+0.5-fy*h)))
	corner.X = min(max(corner.X, at.X-size.X+1), at.X) // rounding must not lose the pixel
	corner.Y = min(max(corner.Y, at.Y-size.Y+1), at.Y)
	return slide(image.Rectangle{Max: size}, corner, bounds)
}

// Scrolled enlarges the picture about the pointer, or makes it smaller again.
func (m *Mirror) Scrolled(e *fyne.ScrollEvent) {
	if e.Scrolled.DY == 0 || m.bounds.Empty() {
		return
	}
	by := zoomStep
	if e.Scrolled.DY < 0 {
		by = 1 / zoomStep
	}
	at, _ := m.Fit().source(e.Position)
	m.setView(zoomed(PartShown(m.view, m.bounds), m.bounds, at, by))
}

// Zoom enlarges the picture by steps about the pixel that is looked at, or about the middle;
// steps under 0 make it smaller, and 0 shows all of it.
func (m *Mirror) Zoom(steps int) {
	part := PartShown(m.view, m.bounds)
	at, ok := m.looking()
	if !ok || !at.In(part) {
		at = part.Min.Add(part.Size().Div(2))
	}
	if steps == 0 || m.bounds.Empty() {
		m.setView(image.Rectangle{})
		return
	}
	m.setView(zoomed(part, m.bounds, at, math.Pow(zoomStep, float64(steps))))
}

// ZoomRoom reports whether the picture can be made smaller, and larger.
func (m *Mirror) ZoomRoom() (out, in bool) {
	part := PartShown(m.view, m.bounds)
	return part != m.bounds, min(part.Dx(), part.Dy()) > LeastView
}

// Pan moves the part that is shown by steps of an eighth of it, as the painter sees them.
func (m *Mirror) Pan(by image.Point) {
	part := PartShown(m.view, m.bounds)
	if part == m.bounds {
		return
	}
	if m.flipped {
		by.X = -by.X
	}
	step := image.Pt(max(part.Dx()/8, 1)*by.X, max(part.Dy()/8, 1)*by.Y)
	m.setView(slide(part, step, m.bounds))
}

// PanBy moves the part that is shown by pixels of the source.
func (m *Mirror) PanBy(by image.Point) {
	if m.enlarged() {
		m.setView(slide(m.part, by, m.bounds))
	}
}

// View returns the part of the picture that is asked for; empty for all.
func (m *Mirror) View() image.Rectangle { return m.view }

// ForgetView asks for all of the picture, from the next picture on.
func (m *Mirror) ForgetView() { m.view = image.Rectangle{} }

// setView asks for another part of the picture; it is shown with the picture that the owner
// brings.
func (m *Mirror) setView(view image.Rectangle) {
	if view == m.view {
		return
	}
	m.view = view
	m.acts.Resized()
}
