package widgets

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
)

// Fit is how a picture lies in a pane: which pixels it is reduced to and where they are
// drawn.
type Fit struct {
	Bounds  image.Rectangle // of the picture, in source pixels
	Pixels  image.Point     // reduced to; never more than the picture has
	Pos     fyne.Position   // in the pane
	Size    fyne.Size
	Flipped bool // left and right are exchanged
}

// fitPicture lays a picture into a pane of size, whose unit has scale display pixels. A
// picture larger than the pane is reduced to it; a smaller one is enlarged, from twice on
// by whole steps so that its pixels stay even.
func fitPicture(bounds image.Rectangle, size fyne.Size, scale float32, flipped bool) Fit {
	f := Fit{Bounds: bounds, Flipped: flipped}
	if bounds.Empty() || size.Width < 1 || size.Height < 1 || !(scale > 0) {
		return f
	}
	w, h := float64(bounds.Dx()), float64(bounds.Dy())
	by := min(float64(size.Width*scale)/w, float64(size.Height*scale)/h)
	if by >= 2 {
		by = math.Floor(by)
	}
	shown := image.Pt(max(1, int(math.Round(w*by))), max(1, int(math.Round(h*by))))
	f.Pixels = image.Pt(min(shown.X, bounds.Dx()), min(shown.Y, bounds.Dy()))
	f.Size = fyne.NewSize(float32(shown.X)/scale, float32(shown.Y)/scale)
	f.Pos = fyne.NewPos(middle(size.Width, f.Size.Width, scale), middle(size.Height, f.Size.Height, scale))
	return f
}

// source returns the source pixel under a point of the pane, and whether the picture is
// there at all; outside of it, the nearest pixel.
func (f Fit) source(p fyne.Position) (image.Point, bool) {
	if f.Bounds.Empty() || f.Size.Width <= 0 || f.Size.Height <= 0 {
		return image.Point{}, false
	}
	x, y := f.place(p)
	at := image.Pt(int(math.Floor(x)), int(math.Floor(y)))
	if f.Flipped && x == math.Floor(x) { // a pixel's left border is its right one here
		at.X--
	}
	return nearestIn(at, f.Bounds), at.In(f.Bounds)
}

// place returns the place in the source under a point of the pane, which may lie outside of
// the picture; pixels have their corners at whole numbers.
func (f Fit) place(p fyne.Position) (x, y float64) {
	if f.Bounds.Empty() || f.Size.Width <= 0 || f.Size.Height <= 0 {
		return 0, 0
	}
	x = float64(p.X-f.Pos.X) / float64(f.Size.Width) * float64(f.Bounds.Dx())
	y = float64(p.Y-f.Pos.Y) / float64(f.Size.Height) * float64(f.Bounds.Dy())
	if f.Flipped {
		x = float64(f.Bounds.Dx()) - x
	}
	return x + float64(f.Bounds.Min.X), y + float64(f.Bounds.Min.Y)
}

// Pane returns the point of the pane over the middle of a source pixel.
func (f Fit) Pane(at image.Point) fyne.Position {
	return f.corner(float64(at.X)+0.5, float64(at.Y)+0.5)
}

// box returns where an area of the source lies in the pane.
func (f Fit) box(area image.Rectangle) (fyne.Position, fyne.Size) {
	a := f.corner(float64(area.Min.X), float64(area.Min.Y))
	b := f.corner(float64(area.Max.X), float64(area.Max.Y))
	if f.Flipped {
		a.X, b.X = b.X, a.X
	}
	return a, fyne.NewSize(b.X-a.X, b.Y-a.Y)
}

// corner returns the point of the pane over a point between source pixels.
func (f Fit) corner(x, y float64) fyne.Position {
	if f.Bounds.Empty() {
		return f.Pos
	}
	x = (x - float64(f.Bounds.Min.X)) / float64(f.Bounds.Dx())
	y = (y - float64(f.Bounds.Min.Y)) / float64(f.Bounds.Dy())
	if f.Flipped {
		x = 1 - x
	}
	return fyne.NewPos(f.Pos.X+float32(x)*f.Size.Width, f.Pos.Y+float32(y)*f.Size.Height)
}

// nearestIn returns the pixel of bounds nearest to p. bounds must not be empty.
func nearestIn(p image.Point, bounds image.Rectangle) image.Point {
	return image.Pt(
		min(max(p.X, bounds.Min.X), bounds.Max.X-1),
		min(max(p.Y, bounds.Min.Y), bounds.Max.Y-1))
}

// between returns the area that two pixels span, both included.
func between(a, b image.Point) image.Rectangle {
	r := image.Rectangle{Min: a, Max: b}.Canon()
	r.Max = r.Max.Add(image.Pt(1, 1))
	return r
}
