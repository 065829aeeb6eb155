package ink

import (
	"image"
	"math"
)

// The greys of marks. Whatever lies below, one of the two has at least 4 to 1 contrast to
// it (WCAG 2.2, contrast ratio): the root of what they have to each other.
const (
	LightGrey = 0xf9 // L* 98
	DarkGrey  = 0x10 // L* 4.7
)

// Mark is one thing to draw.
type Mark struct {
	Lines []Line // with round ends and joints
	Text  Text   // none: no words

	Grey    uint8   // of lines and text, 0 black to 255 white
	Rim     float64 // width of the rim around them, in pixels; 0 for none
	RimGrey uint8
	Halo    float64 // width of a second rim around the first, in Grey

	// Hollow leaves of the lines only their outer edge, so many pixels wide, with the hatch
	// inside it, or with nothing where there is none; 0 fills them.
	Hollow float64
	Hatch  Hatch
	Phase  image.Point // where the hatch begins to count
}

// Line is a line through points.
type Line struct {
	Points []Point
	Closed bool
	Width  float64 // pixels
}

// Hatch is a pattern of thin slanted lines.
type Hatch uint8

const (
	NoHatch Hatch = iota
	Rising        // from lower left to upper right
	Falling       // from upper left to lower right
)

// hatchStep is the distance of hatch lines along a row, in pixels.
const hatchStep = 14

// at returns the grey of the hatch at a pixel, and whether there is a line.
func (h Hatch) at(x, y int) (grey uint8, line bool) {
	k := x + y
	if h == Falling {
		k = x - y
	}
	switch k = ((k % hatchStep) + hatchStep) % hatchStep; {
	case h == NoHatch || k > 3:
		return 0, false
	case k == 1 || k == 2:
		return LightGrey, true
	}
	return DarkGrey, true
}

// Bounds returns the pixels that the mark may touch.
func (m *Mark) Bounds() image.Rectangle { return m.boundsIn(everywhere) }

// boundsIn returns those of them that may lie in a box: of a long text only what is seen there
// is looked at.
func (m *Mark) boundsIn(in box) image.Rectangle {
	b := noBox
	for _, l := range m.Lines {
		b.add(l.Width/2+m.Rim+m.Halo, l.Points...)
	}
	b.addText(&m.Text, in, m.Rim+m.Halo)
	return b.pixels()
}

// Hit reports whether p lies on the mark, or no further from it than reach, in pixels.
// Lines that are left hollow, and a text within its box, count as a whole.
func (m *Mark) Hit(p Point, reach float64) bool {
	b := noBox
	for _, l := range m.Lines {
		if l.hit(p, reach) {
			return true
		}
	}
	b.addText(&m.Text, everywhere, reach)
	return b.meets(box{p, p})
}

func (l *Line) hit(p Point, reach float64) bool {
	for k := range l.segments() {
		if p.Distance(l.segment(k)) <= l.Width/2+reach {
			return true
		}
	}
	return false
}

// box is a rectangle between pixels.
type box struct{ least, most Point }

// noBox holds nothing, everywhere all there is.
var (
	noBox      = box{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
	everywhere = box{noBox.most, noBox.least}
)

// meets reports whether two boxes have a place in common.
func (b box) meets(c box) bool {
	return b.least.X <= c.most.X && c.least.X <= b.most.X && b.least.Y <= c.most.Y && c.least.Y <= b.most.Y
}

// boxOf returns the box of pixels.
func boxOf(r image.Rectangle) box {
	return box{Pt(float64(r.Min.X), float64(r.Min.Y)), Pt(float64(r.Max.X), float64(r.Max.Y))}
}

// add makes b hold the squares around points, whose sides are twice half.
func (b *box) add(half float64, points ...Point) {
	for _, p := range points {
		b.least = Point{min(b.least.X, p.X-half), min(b.least.Y, p.Y-half)}
		b.most = Point{max(b.most.X, p.X+half), max(b.most.Y, p.Y+half)}
	}
}

// pixels returns the pixels that b touches.
func (b box) pixels() image.Rectangle {
	if !(b.least.X <= b.most.X && b.least.Y <= b.most.Y) {
		return image.Rectangle{}
	}
	low := func(v float64) int { return int(math.Floor(max(v, -farthest))) }
	high := func(v float64) int { return int(math.Ceil(min(v, farthest))) }
	return image.Rect(low(b.least.X), low(b.least.Y), high(b.most.X), high(b.most.Y))
}
