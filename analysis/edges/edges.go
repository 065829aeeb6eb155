package edges

import (
	"image"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/reduce"
)

// Kind is what carries an edge.
type Kind uint8

const (
	Lost      Kind = iota // colour alone: it vanishes in grey
	Lined                 // colour, and a line that holds it
	Lightness             // lightness alone
	kinds
)

// Edge is a border between two colours.
type Edge struct {
	Kind   Kind
	Length float64    // share of the picture's width; more than 1 where it winds
	Dark   colour.RGB // of the darker side, by the mean of its light
	Light  colour.RGB // of the lighter side
	// Tones is value of the light side minus value of the dark one; CIEDE2000 how far they are apart.
	Tones, CIEDE2000 float64

	middle mark
	from   image.Point // of a box around it, half cells
	to     image.Point
	marks  [2]int // from, to
	first  int    // which of a mark's sides is the darker one, where that doesn't turn
}

// Found is what was found in a picture: lost edges first, then the others by their kinds, the
// longest of each first.
type Found struct {
	Edges []Edge

	marks        []mark
	across, down float64 // cells
}

// Of returns the edges of a kind.
func (f *Found) Of(k Kind) []Edge {
	from := 0
	for from < len(f.Edges) && f.Edges[from].Kind < k {
		from++
	}
	to := from
	for to < len(f.Edges) && f.Edges[to].Kind == k {
		to++
	}
	return f.Edges[from:to]
}

// At returns a place on the edge, about in the middle of it, and the box around the edge, in the
// pixels of a picture of some size.
func (f *Found) At(e *Edge, size image.Point) (middle image.Point, box image.Rectangle) {
	x, y := float64(size.X)/f.across/2, float64(size.Y)/f.down/2 // pixels a half cell
	at := func(p image.Point, round func(float64) float64) image.Point {
		return image.Pt(max(0, min(int(round(float64(p.X)*x)), size.X)), max(0, min(int(round(float64(p.Y)*y)), size.Y)))
	}
	middle = at(image.Pt(int(e.middle.x), int(e.middle.y)), math.Floor)
	middle = image.Pt(min(middle.X, size.X-1), min(middle.Y, size.Y-1))
	return middle, image.Rectangle{Min: at(e.from, math.Floor), Max: at(e.to, math.Ceil)}
}

// Along calls do with the places of an edge, in no order, in shares of the picture's width and
// height; neighbours are about a cell apart.
func (f *Found) Along(e *Edge, do func(x, y float64)) {
	for i := e.marks[0]; i < e.marks[1]; i++ {
		do(float64(f.marks[i].x)/2/f.across, float64(f.marks[i].y)/2/f.down)
	}
}

// LostAt returns the lost edge that lies nearest to a place in shares of the picture's width and
// height, within so much of its longer side; nil where none does.
func (f *Found) LostAt(x, y, within float64) (nearest *Edge) {
	least := within * max(f.across, f.down)
	lost := f.Of(Lost)
	for i := range lost {
		for _, m := range f.marks[lost[i].marks[0]:lost[i].marks[1]] {
			if d := math.Hypot(float64(m.x)/2-x*f.across, float64(m.y)/2-y*f.down); d <= least {
				nearest, least = &lost[i], d
			}
		}
	}
	return nearest
}

// Beside calls do with places on the darker side of an edge, or on the lighter one, about where its
// colour was read, in no order, in shares of the picture's width and height.
func (f *Found) Beside(e *Edge, lighter bool, do func(x, y float64)) {
	const inside = 2*nearReach + 2 // half cells from the border to the middle of a side
	for _, m := range f.marks[e.marks[0]:e.marks[1]] {
		away := -inside
		if m.turns != (e.first == 1) != lighter {
			away = inside
		}
		x, y := int(m.x), int(m.y)
		if m.axis == 0 {
			x += away
		} else {
			y += away
		}
		do(float64(x)/2/f.across, float64(y)/2/f.down)
	}
}

// Cell returns the side of a cell, in pixels of a picture of a width.
func (f *Found) Cell(width int) float64 { return float64(width) / f.across }

// Longest is how many cells the picture's longer side has at most.
const Longest = 480

// Find looks for edges in a picture; mask is what is left out of it, nil for nothing. Pixels that
// fail Check are an empty picture, which has none. Any goroutine may call it.
func Find(p analysis.Pixels, mask *analysis.Mask, o Options) (found *Found) {
	reduce.Once(p, mask, Longest, func(small *reduce.Picture) { found = new(Finder).Find(small, o) })
	return found
}

// SizeOf returns the size that a picture is reduced to for its edges to be looked for.
func SizeOf(size image.Point) image.Point { return reduce.Within(size, Longest) }
