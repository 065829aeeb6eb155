package families

import (
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
)

// sideRim is how wide the rim of a side is, in cells, in which its colour is mixed with
// what lies beside it.
const sideRim = 2

// body returns the cells of the side marked mark without its rim; where a side is so narrow
// that this leaves less than a third, without less of it. Along a soft edge a side's colour
// runs into the other side's, and there is no rim.
func (m *familyMeter) body(mark uint8, soft bool) []int32 {
	cells, other := m.cells[mark], mark
	if soft {
		other = otherSide(mark)
	}
	for rim := sideRim; rim >= 0; rim-- {
		kept := make([]int32, 0, len(cells))
		for _, i := range cells {
			if m.marks[i] == mark && m.clear(i, mark, other, rim) {
				kept = append(kept, i)
			}
		}
		if 3*len(kept) >= len(cells) {
			return kept
		}
	}
	return cells
}

// otherSide returns the mark of a family's other side.
func otherSide(mark uint8) uint8 {
	if mark%roles == lightSide {
		return mark + 1
	}
	return mark - 1
}

// clear reports whether a cell and all within rim cells of it, up to the picture's edge, are
// marked as one of two, and none of them is thin.
func (m *familyMeter) clear(i int32, mark, other uint8, rim int) bool {
	w, h := m.source.across, m.source.down
	x, y := int(i)%w, int(i)/w
	for v := max(0, y-rim); v <= min(h-1, y+rim); v++ {
		for u := max(0, x-rim); u <= min(w-1, x+rim); u++ {
			k := v*w + u
			if m.marks[k] != mark && m.marks[k] != other || m.planes.thin[k] != 0 {
				return false
			}
		}
	}
	return true
}

// sides reads two sides by their bodies: the means in linear light, and their deepest
// places. Cells whose colour lies far beside the way from one side to the other, as those of
// a pattern, don't count.
func (m *familyMeter) sides(light, shadow []int32) Family {
	p, q := m.meanLab(light), m.meanLab(shadow)
	way := minus(p, q)
	a, b := m.meanSpot(m.beside(light, p, way)), m.meanSpot(m.beside(shadow, q, way))
	m.pin(&a, m.truest(light, a.Lab))
	m.pin(&b, m.truest(shadow, b.Lab))
	return Of(a, b, m.rules)
}

// besideWay is how far beside the way from side to side a cell may lie, in L*a*b*, to count;
// grain adds to it.
const besideWay = 14.0

// beside returns those cells that lie beside the line through mean along a way by no more
// than besideWay, or all if that is less than half of them.
func (f *Finder) beside(cells []int32, mean, way colour.Lab) []int32 {
	limit := besideWay + 2*f.planes.noise
	kept := make([]int32, 0, len(cells))
	for _, i := range cells {
		if _, square := fromLine(labAt(&f.planes.flat, i), mean, way); square <= limit*limit {
			kept = append(kept, i)
		}
	}
	if 2*len(kept) < len(cells) {
		return cells
	}
	return kept
}

// truest returns the cell of a side that shows the side's mean best: of those that lie at
// least half as deep in it as the deepest, the one nearest in colour, of several the first.
func (f *Finder) truest(cells []int32, mean colour.Lab) int32 {
	deepest := cells[0]
	for _, i := range cells {
		if f.planes.depth[i] > f.planes.depth[deepest] {
			deepest = i
		}
	}
	best, nearest := deepest, math.Inf(1)
	for _, i := range cells {
		if 2*f.planes.depth[i] < f.planes.depth[deepest] {
			continue
		}
		if d := squareApart(labAt(&f.planes.flat, i), mean); d < nearest {
			best, nearest = i, d
		}
	}
	return best
}

// pin sets a spot's hue and its place: the middle of a cell, in pixels of the source, and a
// square that fits.
func (f *Finder) pin(spot *analysis.Spot, cell int32) {
	s, at := &f.source, int(cell)
	x, y := s.grid.X.Middle(at%s.across), s.grid.Y.Middle(at/s.across)
	scale := float64(s.width) / s.grid.X.Parts()
	room := (2*float64(f.planes.depth[cell])/depthUnit - 1) * scale
	size := 1
	for _, offered := range [...]int{3, 5, 11} {
		if float64(offered) <= room {
			size = offered
		}
	}
	spot.X, spot.Y, spot.Size = &x, &y, &size
	spot.PointAtHue()
}

// labAt returns a cell's colour.
func labAt(plane *[3][]int32, i int32) colour.Lab {
	return colour.Lab{
		L: float64(plane[0][i]) / cellLab, A: float64(plane[1][i]) / cellLab, B: float64(plane[2][i]) / cellLab,
	}
}

// meanLab returns the mean colour of cells as they are.
func (f *Finder) meanLab(cells []int32) colour.Lab {
	var sum [3]int64
	for _, i := range cells {
		for c := range sum {
			sum[c] += int64(f.planes.raw[c][i])
		}
	}
	return meanLab(sum, len(cells))
}

// meanSpot reads the mean of cells in linear light.
func (f *Finder) meanSpot(cells []int32) analysis.Spot {
	var sum [3]int64
	for _, i := range cells {
		for c, light := range f.lightAt(int(i)) {
			sum[c] += light
		}
	}
	return spotOfSum(sum, len(cells))
}

// spotOfSum reads the mean of light that adds up to sum, in 1/LinearWhite.
func spotOfSum(sum [3]int64, count int) analysis.Spot {
	n := float64(max(count, 1)) * fixed.LinearWhite
	return analysis.SpotOfLight(float64(sum[0])/n, float64(sum[1])/n, float64(sum[2])/n)
}

// depthUnit is a cell in measureDepth.
const depthUnit = 3

// measureDepth measures how far each cell lies from the nearest cell that is thin or has
// another mark, in thirds of a cell (the chamfer distance 3-4 of DEPTH). What lies outside
// the picture counts as alike.
func (f *Finder) measureDepth(marks []uint8) {
	const far = 1 << 12
	p, w := &f.planes, f.source.across
	p.depth = pool.Resized(p.depth, len(marks))
	for i := range p.depth {
		p.depth[i] = far
		if p.thin[i] != 0 {
			p.depth[i] = 0
		}
	}
	for y := range f.source.down {
		for x := range w {
			f.nearer(marks, y*w+x, x, -1, y > 0)
		}
	}
	for y := f.source.down - 1; y >= 0; y-- {
		for x := w - 1; x >= 0; x-- {
			f.nearer(marks, y*w+x, x, 1, y+1 < f.source.down)
		}
	}
}

// nearer lessens a cell's depth by those of the four neighbours that lie before it, or
// behind it, in the order of rows.
func (f *Finder) nearer(marks []uint8, i, x, way int, row bool) {
	const straight, diagonal = depthUnit, 4
	w, d := f.source.across, f.planes.depth
	own, best := marks[i], d[i]
	look := func(k int, by int32) {
		if marks[k] == own {
			by += d[k]
		}
		best = min(best, by)
	}
	left, right := x > 0, x+1 < w
	if way < 0 && left || way > 0 && right {
		look(i+way, straight)
	}
	if row {
		beside := i + way*w
		look(beside, straight)
		if left {
			look(beside-1, diagonal)
		}
		if right {
			look(beside+1, diagonal)
		}
	}
	d[i] = best
}

// mainStep returns those cells of a side that are of its main step, or all where none are.
func (m *familyMeter) mainStep(cells []int32) []int32 {
	kept := make([]int32, 0, len(cells))
	for _, i := range cells {
		if m.main[m.areas.label[i]] {
			kept = append(kept, i)
		}
	}
	if len(kept) == 0 {
		return cells
	}
	return kept
}

// evenRange is the part of a side's range of lightness that half of its cells take, from which
// on it has no plateau: in a ramp it is a half.
const evenRange = 0.4

// plateau returns those cells of a side that lie in the narrowest range of lightness that
// holds half of them: where light runs softly into shadow, that is the even part of the side,
// and in an even one it is any half (the shorth: Andrews et al., Robust Estimates of Location,
// 1972, from memory).
func (m *familyMeter) plateau(cells []int32) []int32 {
	values := make([]int32, len(cells))
	for k, i := range cells {
		values[k] = m.planes.flat[0][i]
	}
	slices.Sort(values)
	half := len(values) / 2
	from, narrowest := 0, int32(math.MaxInt32)
	for k := range len(values) - half {
		if w := values[k+half] - values[k]; w < narrowest {
			from, narrowest = k, w
		}
	}
	low, high := values[from], values[from+half]
	if float64(narrowest) > evenRange*float64(values[len(values)-1]-values[0]) {
		return cells
	}
	kept := make([]int32, 0, len(cells))
	for _, i := range cells {
		if l := m.planes.flat[0][i]; l >= low && l <= high {
			kept = append(kept, i)
		}
	}
	return kept
}
