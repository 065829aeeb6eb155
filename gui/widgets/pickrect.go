package widgets

import "image"

// pickGrip is which part of the chosen rectangle a drag has hold of.
type pickGrip struct{ left, top, right, bottom, inside bool }

// outside reports whether the grip holds nothing: a drag begins a new rectangle.
func (g pickGrip) outside() bool { return g == pickGrip{} }

// gripReach is how near to an edge a press takes hold of it, in desktop pixels.
const gripReach = 6

// gripAt returns what a press at p takes hold of.
func gripAt(r image.Rectangle, p image.Point) pickGrip {
	if r.Empty() || !p.In(r.Inset(-gripReach)) {
		return pickGrip{}
	}
	near := func(a, b int) bool { return a-b <= gripReach && b-a <= gripReach }
	g := pickGrip{right: near(p.X, r.Max.X), bottom: near(p.Y, r.Max.Y)} // of edges near each other, these
	g.left, g.top = near(p.X, r.Min.X) && !g.right, near(p.Y, r.Min.Y) && !g.bottom
	g.inside = g.outside()
	return g
}

// pull returns r after its grip was dragged by d, within the desktop.
func (g pickGrip) pull(r image.Rectangle, d image.Point, desktop image.Rectangle) image.Rectangle {
	if g.inside {
		return slide(r, d, desktop)
	}
	if g.left {
		r.Min.X += d.X
	}
	if g.right {
		r.Max.X += d.X
	}
	if g.top {
		r.Min.Y += d.Y
	}
	if g.bottom {
		r.Max.Y += d.Y
	}
	return r.Canon().Intersect(desktop)
}

// slide moves r, which is no larger than bounds, by d, and keeps it in bounds as a whole.
func slide(r image.Rectangle, d image.Point, bounds image.Rectangle) image.Rectangle {
	r = r.Add(d)
	return r.Add(image.Pt(
		max(bounds.Min.X-r.Min.X, 0)-max(r.Max.X-bounds.Max.X, 0),
		max(bounds.Min.Y-r.Min.Y, 0)-max(r.Max.Y-bounds.Max.Y, 0)))
}

// grow moves r's right and lower edge by d, within the desktop, and leaves it a pixel.
func grow(r image.Rectangle, d image.Point, desktop image.Rectangle) image.Rectangle {
	r.Max.X = min(max(r.Max.X+d.X, r.Min.X+1), desktop.Max.X)
	r.Max.Y = min(max(r.Max.Y+d.Y, r.Min.Y+1), desktop.Max.Y)
	return r
}

// middleHalf is where a region begins that is chosen by keys alone.
func middleHalf(desktop image.Rectangle) image.Rectangle {
	return desktop.Inset(min(desktop.Dx(), desktop.Dy()) / 4)
}
