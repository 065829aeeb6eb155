package families

import (
	"errors"
	"image"
	"math"
)

// Sides are two places that are proposed as the light and the shadow of one local colour, in
// pixels of the picture that was taken last.
type Sides struct{ Light, Shadow image.Point }

// Why no sides are proposed.
var (
	ErrUnsearched = errors.New("no picture was searched yet")
	ErrNoSides    = errors.New("nothing around it looks like its other side")
)

// What may be the other side of an area that is pointed at is asked less of than what is found
// without a word: the painter says that there is a form (our choice).
const (
	atEdge  = 0.3 // of the common edge over the root of the smaller side
	atReach = 4   // cells from a line, or what else is no area, to the nearest area
	atDepth = 3   // cells around a proposed place that are of its side, where there are any such
)

// At proposes the sides of the local colour at a pixel, by the areas of the last Find: the area
// there and the one beside it that most looks like its light or its shadow, or the halves of an
// area that runs smoothly from light to dark. The side that is pointed at is the pixel itself,
// unless it lies on a line or right at an edge. The error is ErrUnsearched or ErrNoSides.
func (f *Finder) At(x, y int) (Sides, error) {
	cell, err := f.cellAt(x, y)
	if err != nil {
		return Sides{}, err
	}
	own := f.areaNear(cell)
	if own == noArea {
		return Sides{}, ErrNoSides
	}
	label := f.areas.label
	mine := func(i int) bool { return label[i] == own }
	var other func(cell int) bool
	if partner := f.partnerOf(own); partner != noArea {
		other = func(i int) bool { return label[i] == partner }
	} else if half, ok := f.halves(own); ok {
		lit := half(f.nearest(cell, mine, 0))
		mine = func(i int) bool { return label[i] == own && half(i) == lit }
		other = func(i int) bool { return label[i] == own && half(i) != lit }
	} else {
		return Sides{}, ErrNoSides
	}
	here, there := image.Pt(x, y), f.nearest(cell, other, atDepth)
	if !f.inside(cell, mine, 1) {
		here = f.pixelOf(f.nearest(cell, mine, atDepth))
	}
	if there < 0 {
		return Sides{}, ErrNoSides
	}
	sides := Sides{here, f.pixelOf(there)}
	at, _ := f.cellAt(here.X, here.Y)
	if f.planes.flat[0][at] < f.planes.flat[0][there] {
		sides.Light, sides.Shadow = sides.Shadow, sides.Light
	}
	return sides, nil
}

// LightnessAt returns the L* of the cell in which a pixel lies, without grain. The error is ErrUnsearched.
func (f *Finder) LightnessAt(x, y int) (lightness float64, err error) {
	cell, err := f.cellAt(x, y)
	if err != nil {
		return 0, err
	}
	return float64(f.planes.flat[0][cell]) / cellLab, nil
}

// cellAt returns the cell in which a pixel of the picture lies.
func (f *Finder) cellAt(x, y int) (int, error) {
	s := &f.source
	if n := s.across * s.down; n == 0 || len(f.areas.label) != n || !image.Pt(x, y).In(image.Rect(0, 0, s.width, s.height)) {
		return 0, ErrUnsearched
	}
	return s.grid.Y.BoxOf(y)*s.across + s.grid.X.BoxOf(x), nil
}

// pixelOf returns the pixel in the middle of a cell.
func (f *Finder) pixelOf(cell int) image.Point {
	s := &f.source
	return image.Pt(s.grid.X.Middle(cell%s.across), s.grid.Y.Middle(cell/s.across))
}

// areaNear returns the area of a cell or, where it has none, the nearest one; noArea if there is
// none within atReach. A line is that of the form beside it, not of the ground.
func (f *Finder) areaNear(cell int) int32 {
	l := f.areas.label[cell]
	onGround := l != noArea && f.areas.list[l].ground
	if l != noArea && !(onGround && f.planes.thin[cell]&thinCell != 0) {
		return l
	}
	near := f.nearest(cell, func(i int) bool {
		k := f.areas.label[i]
		return k != noArea && !(onGround && f.areas.list[k].ground)
	}, 0)
	if w := f.source.across; near < 0 || math.Hypot(float64(near%w-cell%w), float64(near/w-cell/w)) > atReach {
		return l
	}
	return f.areas.label[near]
}

// partnerOf returns the area beside own that most looks like its light or its shadow, noArea if
// none does.
func (f *Finder) partnerOf(own int32) int32 {
	a := &f.areas
	f.findEdges() // areas were cut and joined since
	best, partner := 0.0, int32(noArea)
	for i := range a.edges {
		e := &a.edges[i]
		if e.a != own && e.b != own || e.isLined() {
			continue
		}
		other := e.other(own)
		if a.list[other].ground && !a.list[own].ground {
			continue
		}
		if score := f.maySide(own, other, e.length); score > best {
			best, partner = score, other
		}
	}
	return partner
}

// maySide says how much two areas with so long an edge look like the sides of one local
// colour; 0 for not at all.
func (f *Finder) maySide(own, other int32, edge int) float64 {
	light, shadow := f.areas.lighter(own, other)
	p, q := &f.areas.list[light], &f.areas.list[shadow]
	if p.n == 0 || q.n == 0 || min(p.all, q.all) < leastCells {
		return 0
	}
	apart := p.mean().L - q.mean().L
	ratio := float64(edge) * math.Pi / 4 / math.Sqrt(float64(min(p.all, q.all)))
	if apart < leastApart || apart > mostApart || ratio < atEdge {
		return 0
	}
	return hueScore(p.mean(), q.mean()) * min(ratio, 1) * min(1, apart/10)
}

// halves says which cells of an area that runs smoothly from light to dark are on its light
// side; ok is false if it has no two sides.
func (f *Finder) halves(area int32) (light func(cell int) bool, ok bool) {
	c := &f.softCuts(leastCells)[area]
	dim, lit := &c.sides[0], &c.sides[1]
	if !c.ok || min(dim.all, lit.all) < leastCells || dim.n == 0 || lit.n == 0 || lit.mean().L-dim.mean().L < leastApart {
		return nil, false
	}
	return func(cell int) bool { return c.along(&f.planes, cell) >= c.cut }, true
}

// nearest returns the cell nearest to another one of those that are in a part and have only
// cells of it around them, so many to each side or, where there are no such, fewer; -1 if no
// cell is in it.
func (f *Finder) nearest(to int, in func(cell int) bool, around int) int {
	w := f.source.across
	for r := around; r >= 0; r-- {
		best, at := math.MaxInt, -1
		for i := range f.areas.label {
			dx, dy := i%w-to%w, i/w-to/w
			if d := dx*dx + dy*dy; d < best && in(i) && f.inside(i, in, r) {
				best, at = d, i
			}
		}
		if at >= 0 {
			return at
		}
	}
	return -1
}

// inside reports whether a cell and all within so many cells of it, up to the picture's edge,
// are in a part and not thin; around 0, a thin one does too.
func (f *Finder) inside(cell int, in func(cell int) bool, around int) bool {
	w, h := f.source.across, f.source.down
	for y := max(cell/w-around, 0); y <= min(cell/w+around, h-1); y++ {
		for x := max(cell%w-around, 0); x <= min(cell%w+around, w-1); x++ {
			if k := y*w + x; !in(k) || around > 0 && f.planes.thin[k] != 0 {
				return false
			}
		}
	}
	return true
}
