package movement

import "math"

// Transform is a similarity of the plane: mirrored left to right first if at all, then zoomed
// and turned about the origin, then shifted. It maps places in the picture before to places in
// the picture after, in pixels, the top left corner of the first pixel at (0, 0), so that a
// pixel's centre lies at halves. The zero value leaves all where it is.
type Transform struct {
	a, b     float64 // zoom times cosine, less 1; zoom times sine
	x, y     float64 // pixels
	mirrored bool
}

// Shift returns the transform that moves by so many pixels.
func Shift(x, y float64) Transform { return Transform{x: x, y: y} }

// ZoomBy returns the transform that enlarges by a factor above 0 about a place.
func ZoomBy(factor, x, y float64) Transform { return Transform{a: factor - 1}.about(x, y) }

// Turn returns the transform that turns by an angle in degrees, clockwise as y points down,
// about a place.
func Turn(degrees, x, y float64) Transform {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return Transform{a: cos - 1, b: sin}.about(x, y)
}

// Mirror returns the transform that exchanges left and right of the upright line at x.
func Mirror(x float64) Transform { return Transform{x: 2 * x, mirrored: true} }

// about returns the transform without its shift, done about a place.
func (t Transform) about(x, y float64) Transform {
	return Shift(-x, -y).Compose(t).Compose(Shift(x, y))
}

// Apply returns where a place comes to lie.
func (t Transform) Apply(x, y float64) (float64, float64) {
	x, y = t.direction(x, y)
	return x + t.x, y + t.y
}

// direction returns what becomes of the way from one place to another.
func (t Transform) direction(x, y float64) (float64, float64) {
	if t.mirrored {
		x = -x
	}
	return x + t.a*x - t.b*y, y + t.b*x + t.a*y
}

// Compose returns the transform that does t and then next.
func (t Transform) Compose(next Transform) Transform {
	// Of one that is mirrored what comes before turns the other way round.
	a, b := 1+t.a, t.b
	if next.mirrored {
		b = -b
	}
	c, d := 1+next.a, next.b
	out := Transform{a: a*c - b*d - 1, b: a*d + b*c, mirrored: t.mirrored != next.mirrored}
	out.x, out.y = next.Apply(t.x, t.y)
	return out
}

// Inverse returns the transform that undoes t, which has to have a zoom above 0.
func (t Transform) Inverse() Transform {
	a, b := 1+t.a, t.b
	square := a*a + b*b
	in := Transform{a: a/square - 1, b: -b / square, mirrored: t.mirrored}
	if t.mirrored {
		in.b = b / square
	}
	in.x, in.y = in.direction(-t.x, -t.y)
	return in
}

// Zoom returns by which factor lengths grow.
func (t Transform) Zoom() float64 { return math.Hypot(1+t.a, t.b) }

// Degrees returns by which angle is turned, clockwise as y points down, from −180 to 180,
// after what is mirrored has been.
func (t Transform) Degrees() float64 { return math.Atan2(t.b, 1+t.a) * 180 / math.Pi }

// Mirrored reports whether left and right are exchanged.
func (t Transform) Mirrored() bool { return t.mirrored }

// scaled returns the same transform in other units, by times as many.
func (t Transform) scaled(by float64) Transform {
	t.x, t.y = t.x*by, t.y*by
	return t
}

// apart returns how far apart two transforms put one of the corners of a rectangle around the
// origin at most, half its sides given.
func (t Transform) apart(other Transform, halfX, halfY float64) (most float64) {
	for _, sx := range [2]float64{-halfX, halfX} {
		for _, sy := range [2]float64{-halfY, halfY} {
			ax, ay := t.Apply(sx, sy)
			bx, by := other.Apply(sx, sy)
			most = max(most, (ax-bx)*(ax-bx)+(ay-by)*(ay-by))
		}
	}
	return math.Sqrt(most)
}
