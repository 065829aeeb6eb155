package ink

import (
	"image"
	"math"
	"slices"

	"golang.org/x/image/vector"
)

// A thick line is laid out of pieces that all run the same way round and share their
// borders: a rectangle a segment, a wedge on the outer side of every joint, half a disc at
// either end. So their coverages add up to the line's, and a piece that touches no pixel
// of interest can be left away. Shared borders have the same corners, the middle of the
// line among them: the rasterizer rounds a straight border differently when it comes in
// two parts, and what is left between would show as a scratch.

// outlines are closed outlines on their way to the rasterizer of a tile.
type outlines struct {
	raster vector.Rasterizer
	origin Point // the tile's corner
	arcs   map[arc][]Point
}

// arc is all that the border of a sector depends on, around its middle.
type arc struct{ from, to Point }

// mostArcs is how many of them are kept before they are forgotten: a mark has a few, which are
// needed again in each of its tiles.
const mostArcs = 256

// at returns where a place lies in the tile.
func (o *outlines) at(p Point) (x, y float32) {
	return float32(p.X - o.origin.X), float32(p.Y - o.origin.Y)
}

func (o *outlines) add(points ...Point) {
	for i, p := range points {
		if i == 0 {
			o.raster.MoveTo(o.at(p))
		} else {
			o.raster.LineTo(o.at(p))
		}
	}
	o.raster.ClosePath()
}

// curve adds an arc from where the outline is, around a middle. Of what runs beside the tile all the
// way only the ends matter.
func (o *outlines) curve(middle Point, arc []Point) {
	before := uint8(0)
	for i, p := range arc {
		p = middle.Plus(p)
		beside := o.beside(p)
		if before&beside != 0 && i+1 < len(arc) && beside&before&o.beside(middle.Plus(arc[i+1])) != 0 {
			continue
		}
		before = beside
		o.raster.LineTo(o.at(p))
	}
}

// beside tells on which sides of the tile a place lies, a bit each; none for one within it.
func (o *outlines) beside(p Point) (sides uint8) {
	x, y := o.at(p)
	size := o.raster.Size()
	if x < 0 {
		sides |= 1
	} else if x > float32(size.X) {
		sides |= 2
	}
	if y < 0 {
		sides |= 4
	} else if y > float32(size.Y) {
		sides |= 8
	}
	return sides
}

// pieces adds the pieces that belong to the segment from point i on. thick is the line's
// width as it is to be drawn.
func (l *Line) pieces(o *outlines, i int, thick float64) {
	half := thick / 2
	if !(half > 0) {
		return
	}
	from, to := l.segment(i)
	if from == to {
		if i == 0 && l.lone() {
			side := Point{half, 0}
			o.sector(from, side, side.Times(-1))
			o.sector(from, side.Times(-1), side)
		}
		return
	}
	side := sideOf(from, to, half)
	o.add(from.Plus(side), to.Plus(side), to, to.Minus(side), from.Minus(side), from)
	if !l.follows(i) {
		o.sector(from, side.Times(-1), side)
	}
	next, ok := l.after(i)
	if !ok {
		o.sector(to, side, side.Times(-1))
		return
	}
	other := sideOf(to, next, half)
	switch turn := side.cross(other); {
	case turn < 0:
		o.sector(to, side, other)
	case turn > 0:
		o.sector(to, other.Times(-1), side.Times(-1))
	case side.dot(other) < 0: // straight back
		o.sector(to, side, side.Times(-1))
	}
}

// segments returns how many segments there may be; some may have no length.
func (l *Line) segments() int {
	n := len(l.Points)
	if n < 2 || l.Closed {
		return n
	}
	return n - 1
}

// segment returns the ends of segment i.
func (l *Line) segment(i int) (from, to Point) {
	return l.Points[i], l.Points[(i+1)%len(l.Points)]
}

// lone reports whether all points of the line are one.
func (l *Line) lone() bool {
	return !slices.ContainsFunc(l.Points, func(p Point) bool { return p != l.Points[0] })
}

// follows reports whether a segment comes before segment i. Points on top of each other
// count as one.
func (l *Line) follows(i int) bool {
	return l.Closed || slices.ContainsFunc(l.Points[:i], func(p Point) bool { return p != l.Points[i] })
}

// after returns where the segment after segment i leads to; false at the line's end.
func (l *Line) after(i int) (Point, bool) {
	n := len(l.Points)
	end := l.Points[(i+1)%n]
	for k := 2; k <= n; k++ {
		if i+k >= n && !l.Closed {
			break
		}
		if p := l.Points[(i+k)%n]; p != end {
			return p, true
		}
	}
	return Point{}, false
}

// sideOf returns the way from the middle of a segment to its border.
func sideOf(from, to Point, half float64) Point {
	way := to.Minus(from)
	k := half / way.Length()
	return Point{-way.Y * k, way.X * k}
}

// arcMiss is how far a polygon may stay inside the arc that it stands for, in pixels.
const arcMiss = 0.02

// arcSteps returns into how many straight pieces an arc is cut.
func arcSteps(angle, radius float64) int {
	step := 2 * math.Acos(1-min(arcMiss/radius, 0.5))
	return max(1, int(math.Ceil(math.Abs(angle)/step)))
}

// cosStep returns the cosine of the largest angle that arcSteps does not cut.
func cosStep(radius float64) float64 {
	k := 1 - min(arcMiss/radius, 0.5) // of half of that angle
	return 2*k*k - 1
}

// sector adds a sector of a disc, from middle+from to middle+to, turned from y toward x as
// all pieces run; from = -to gives half a disc.
func (o *outlines) sector(middle, from, to Point) {
	var points []Point
	if from.cross(to) >= 0 || from.dot(to) < cosStep(from.Length())*from.dot(from) { // else straight, as at most joints of a ring
		points = o.arc(from, to)
	}
	o.raster.MoveTo(o.at(middle.Plus(from)))
	o.curve(middle, points)
	o.raster.LineTo(o.at(middle.Plus(to)))
	o.raster.LineTo(o.at(middle))
	o.raster.ClosePath()
}

// arc is arcOf, which it remembers.
func (o *outlines) arc(from, to Point) []Point {
	points, ok := o.arcs[arc{from, to}]
	if !ok {
		points = arcOf(from, to)
		if o.arcs == nil || len(o.arcs) >= mostArcs {
			o.arcs = map[arc][]Point{}
		}
		o.arcs[arc{from, to}] = points
	}
	return points
}

// arcOf returns the corners between the ends of an arc.
func arcOf(from, to Point) (points []Point) {
	angle := math.Atan2(from.cross(to), from.dot(to))
	if angle >= 0 {
		angle -= 2 * math.Pi
	}
	steps := arcSteps(angle, from.Length())
	for k := 1; k < steps; k++ {
		points = append(points, from.Turned(angle*float64(k)/float64(steps)))
	}
	return points
}

// How much of a tile a piece covers.
type share uint8

const (
	none share = iota
	part
	whole
)

// reach returns how much of a tile the pieces of a segment may cover whose border is half away
// from it: all only where the border is more than a pixel off.
func (l *Line) reach(segment int, half float64, tile image.Rectangle) share {
	from, to := l.segment(segment)
	in := boxOf(tile)
	middle, across := in.least.Plus(in.most).Times(0.5), in.most.Minus(in.least).Length()/2
	switch d := middle.Distance(from, to); {
	case d > half+across+1:
		return none
	case d+across < half-1:
		return whole
	}
	return part
}

// Ellipse returns the outline of an ellipse with its half axes along x and y, running the same
// way round as all pieces.
func Ellipse(middle, half Point) []Point {
	half = Point{math.Abs(half.X), math.Abs(half.Y)}
	points := make([]Point, max(8, arcSteps(2*math.Pi, max(half.X, half.Y, arcMiss))))
	for k := range points {
		sin, cos := math.Sincos(-2 * math.Pi * float64(k) / float64(len(points)))
		points[k] = middle.Plus(Point{cos * half.X, sin * half.Y})
	}
	return points
}

// Dashes returns a ring round a place as so many dashes, each as long as the gap behind it.
func Dashes(middle Point, radius float64, count int, width float64) (lines []Line) {
	const points = 8 // of an arc (our choice)
	for i := range count {
		arc := make([]Point, points)
		for k := range arc {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5*float64(k)/(points-1)) / float64(count))
			arc[k] = middle.Plus(Pt(radius*cos, radius*sin))
		}
		lines = append(lines, Line{Points: arc, Width: width})
	}
	return lines
}
