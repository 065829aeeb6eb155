package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// A point of the picture, in pixels from the top left.
type point struct{ x, y float64 }

// A node is a point that a drawn edge goes through, smoothly unless it is a corner.
type node struct {
	point
	corner bool
}

// nodes reads an edge written as "x,y x,y! x,y": an exclamation mark makes a corner.
// The edges are constants of this program, so a slip of the pen panics.
func nodes(text string) []node {
	var out []node
	for word := range strings.FieldsSeq(text) {
		bare := strings.TrimSuffix(word, "!")
		n := node{corner: bare != word}
		if _, err := fmt.Sscanf(bare, "%g,%g", &n.x, &n.y); err != nil {
			panic(fmt.Sprintf("edge %q: %v", word, err))
		}
		out = append(out, n)
	}
	return out
}

// fineness is how many straight pieces stand for the curve between two nodes.
const fineness = 16

// closed returns the polygon of the closed edge written in text.
func closed(text string) []point {
	n := nodes(text)
	var out []point
	for i := range n {
		out = append(out, span(n, i, true)...)
	}
	return out
}

// open returns the points of the open edge written in text, from its first node to its
// last.
func open(text string) []point {
	n := nodes(text)
	n[0].corner, n[len(n)-1].corner = true, true
	var out []point
	for i := range len(n) - 1 {
		out = append(out, span(n, i, false)...)
	}
	return append(out, n[len(n)-1].point)
}

// span returns the points from node i up to, but without, the next: a cubic Hermite
// piece with Catmull-Rom tangents, which vanish on the far side of a corner.
func span(n []node, i int, ring bool) []point {
	at := func(k int) node {
		if ring {
			return n[(k+len(n))%len(n)]
		}
		return n[min(max(k, 0), len(n)-1)]
	}
	a, b := at(i), at(i+1)
	ta, tb := tangent(at(i-1), a, b), tangent(a, b, at(i+2))
	chord := point{b.x - a.x, b.y - a.y}
	if a.corner && b.corner {
		ta, tb = chord, chord
	} else if a.corner {
		ta = point{(3*chord.x - tb.x) / 2, (3*chord.y - tb.y) / 2}
	} else if b.corner {
		tb = point{(3*chord.x - ta.x) / 2, (3*chord.y - ta.y) / 2}
	}
	out := make([]point, fineness)
	for k := range out {
		t := float64(k) / fineness
		out[k] = hermite(a.point, ta, b.point, tb, t)
	}
	return out
}

// tangent is the Catmull-Rom tangent at b, kept short where its neighbours are unevenly
// far, so that no loop forms.
func tangent(a, b, c node) point {
	t := point{(c.x - a.x) / 2, (c.y - a.y) / 2}
	near := min(math.Hypot(b.x-a.x, b.y-a.y), math.Hypot(c.x-b.x, c.y-b.y))
	long := math.Hypot(t.x, t.y)
	if long > 1.2*near && long > 0 {
		t.x, t.y = t.x*1.2*near/long, t.y*1.2*near/long
	}
	return t
}

// hermite is the cubic through a and b with tangents ta and tb, at t in [0, 1].
func hermite(a, ta, b, tb point, t float64) point {
	t2, t3 := t*t, t*t*t
	h0, h1, h2, h3 := 2*t3-3*t2+1, t3-2*t2+t, -2*t3+3*t2, t3-t2
	return point{
		h0*a.x + h1*ta.x + h2*b.x + h3*tb.x,
		h0*a.y + h1*ta.y + h2*b.y + h3*tb.y,
	}
}

// ribbon returns the outline of a brush stroke along a line: half of width to each side
// in the middle, tapering to a point at both ends (taper 1) or blunt (taper 0).
func ribbon(line []point, width, taper float64) []point {
	var left, right []point
	for i, p := range line {
		a, b := line[max(i-1, 0)], line[min(i+1, len(line)-1)]
		dx, dy := b.x-a.x, b.y-a.y
		long := math.Hypot(dx, dy)
		if long == 0 {
			continue
		}
		t := float64(i) / float64(len(line)-1)
		swell := 1 - taper*math.Pow(math.Abs(2*t-1), 2.5)
		w := width / 2 * swell
		nx, ny := -dy/long*w, dx/long*w
		left = append(left, point{p.x + nx, p.y + ny})
		right = append(right, point{p.x - nx, p.y - ny})
	}
	slices.Reverse(right)
	return append(left, right...)
}

// disc returns an ellipse about (x, y) with the half axes rx and ry.
func disc(x, y, rx, ry float64) []point {
	const n = 96
	out := make([]point, n)
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		out[i] = point{x + rx*c, y + ry*s}
	}
	return out
}

// box returns a rectangle by two corners.
func box(x0, y0, x1, y1 float64) []point {
	return []point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// rounded returns a rectangle with quarter circles of radius r for corners.
func rounded(x0, y0, x1, y1, r float64) []point {
	var out []point
	for i, c := range []point{{x1 - r, y1 - r}, {x0 + r, y1 - r}, {x0 + r, y0 + r}, {x1 - r, y0 + r}} {
		for k := range fineness + 1 {
			s, co := math.Sincos(math.Pi / 2 * (float64(i) + float64(k)/fineness))
			out = append(out, point{c.x + r*co, c.y + r*s})
		}
	}
	return out
}
