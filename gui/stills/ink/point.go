package ink

import (
	"encoding/json"
	"errors"
	"math"
)

// Point is a place, or a distance, in pixels.
type Point struct{ X, Y float64 }

// Pt is shorthand for Point{x, y}.
func Pt(x, y float64) Point { return Point{x, y} }

// farthest bounds coordinates, in pixels: far beyond any picture that is read here.
const farthest = 1e7

var errPoint = errors.New("not a place")

// Plus returns p moved by q.
func (p Point) Plus(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Minus returns the way from q to p.
func (p Point) Minus(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Times returns p, as a distance, k times as long.
func (p Point) Times(k float64) Point { return Point{k * p.X, k * p.Y} }

// Length returns the length of p as a distance. Drawing asks so often that math.Hypot, which keeps
// tiny and huge numbers apart, is only asked where they are.
func (p Point) Length() float64 {
	if square := p.dot(p); square > 1e-200 && square < 1e200 {
		return math.Sqrt(square)
	}
	return math.Hypot(p.X, p.Y)
}

// Turned returns p, as a distance, turned by an angle in radians, from x toward y.
func (p Point) Turned(angle float64) Point {
	sin, cos := math.Sincos(angle)
	return Point{p.X*cos - p.Y*sin, p.X*sin + p.Y*cos}
}

// cross is positive where q is turned from p, from x toward y.
func (p Point) cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

func (p Point) dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Fine reports whether p is a place that can be drawn: a number, and not absurdly far.
func (p Point) Fine() bool { return math.Abs(p.X) <= farthest && math.Abs(p.Y) <= farthest } // false for NaN

// Distance returns how far p is from the straight line between a and b.
func (p Point) Distance(a, b Point) float64 {
	ab, ap := b.Minus(a), p.Minus(a)
	t := 0.0
	if l := ab.dot(ab); l > 0 {
		t = max(0, min(1, ap.dot(ab)/l))
	}
	return ap.Minus(ab.Times(t)).Length()
}

// MarshalJSON writes [x,y].
func (p Point) MarshalJSON() ([]byte, error) {
	if !p.Fine() {
		return nil, errPoint
	}
	return json.Marshal([]float64{p.X, p.Y})
}

// UnmarshalJSON reads [x,y].
func (p *Point) UnmarshalJSON(text []byte) error {
	var xy []float64
	if err := json.Unmarshal(text, &xy); err != nil {
		return err
	}
	if len(xy) != 2 || !(Point{xy[0], xy[1]}).Fine() {
		return errPoint
	}
	*p = Point{xy[0], xy[1]}
	return nil
}
