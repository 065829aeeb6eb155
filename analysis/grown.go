package analysis

import (
	"image"
	"math"
	"slices"
	"sort"

	"app.tonedesk/analysis/colour"
)

// Seed is a place whose colour is left out, with what is like it and hangs together with the
// place or with the picture's border.
type Seed struct {
	At     image.Point // pixel
	Colour colour.RGB  // that the place had when it was chosen: it may be painted over since
	Within float64     // distance in L*a*b* (CIE 1976) up to which a colour is like it
}

// MostSeeds is how many seeds a part is grown from at most (our choice); further ones do
// nothing.
const MostSeeds = 32

// Grown is a part of a picture, of any shape: see Grower. A nil Grown is empty.
type Grown struct {
	Seeds         []Seed // that it was grown from
	Width, Height int    // pixels, of the picture
	first         []int32
	runs          []run // of row y those from first[y] up to first[y+1], from left to right, apart
}

// run is a run of pixels of a row.
type run struct{ from, to int32 }

// nowhere is right of every picture.
const nowhere = math.MaxInt32

// row returns the runs of a row; none where there is no such row.
func (g *Grown) row(y int) []run {
	if g == nil || y < 0 || y+1 >= len(g.first) {
		return nil
	}
	return g.runs[g.first[y]:g.first[y+1]]
}

// run returns the first run of row y that ends after column x; from nowhere on if there is none.
func (g *Grown) run(y, x int) (from, to int) {
	runs := g.row(y)
	if i := sort.Search(len(runs), func(i int) bool { return int(runs[i].to) > x }); i < len(runs) {
		return int(runs[i].from), int(runs[i].to)
	}
	return nowhere, nowhere
}

// Pixels returns how many pixels it has.
func (g *Grown) Pixels() (n int) {
	if g != nil {
		for _, r := range g.runs {
			n += int(r.to - r.from)
		}
	}
	return n
}

// Each calls do with all runs, row by row from left to right: of row y, the columns from up to,
// but not with, to.
func (g *Grown) Each(do func(y, from, to int)) {
	if g == nil {
		return
	}
	for y := range len(g.first) - 1 {
		for _, r := range g.row(y) {
			do(y, int(r.from), int(r.to))
		}
	}
}

// Clone returns a copy that shares nothing; nil of nil.
func (g *Grown) Clone() *Grown {
	if g == nil {
		return nil
	}
	return &Grown{slices.Clone(g.Seeds), g.Width, g.Height, slices.Clone(g.first), slices.Clone(g.runs)}
}

// Scaled returns the same part of the picture brought to another size, each pixel as its centre
// lies; nil of nil. Its seeds lie there too.
func (g *Grown) Scaled(width, height int) *Grown {
	if g == nil {
		return nil
	}
	s := &Grown{Width: width, Height: height, Seeds: slices.Clone(g.Seeds), first: []int32{0}}
	for i := range s.Seeds {
		at := &s.Seeds[i].At
		at.X, at.Y = at.X*width/max(g.Width, 1), at.Y*height/max(g.Height, 1)
	}
	for y := range height {
		for _, r := range g.row((2*y + 1) * g.Height / (2 * height)) {
			from, to := CentreAt(int(r.from), g.Width, width), CentreAt(int(r.to), g.Width, width)
			if from < to {
				s.runs = append(s.runs, run{int32(from), int32(to)})
			}
		}
		s.first = append(s.first, int32(len(s.runs)))
	}
	return s
}

// CentreAt returns the first of parts equal parts of length whose centre does not lie
// before at: the least j with (j + 1/2) length/parts >= at.
func CentreAt(at, length, parts int) int {
	return (2*at*parts + length - 1) / (2 * length)
}
