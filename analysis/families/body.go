package families

import (
	"image"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
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
// a pattern, don't count. It hands rules on.
func (f *Finder) sides(light, shadow []int32, rules Rules) (analysis.Spot, analysis.Spot, Rules) {
	p, q := f.meanLab(light), f.meanLab(shadow)
	a, b := f.meanSpot(f.beside(light, p, p, q)), f.meanSpot(f.beside(shadow, q, p, q))
	f.pin(&a, f.truest(light, a.Lab))
	f.pin(&b, f.truest(shadow, b.Lab))
	return a, b, rules
}

// besideWay is how far beside the way from side to side a cell may lie, in L*a*b*, to count;
// grain adds to it.
const besideWay = 14.0

// beside returns those cells that lie beside the line through mean along the way from p to q
// by no more than besideWay, or all if that is less than half of them.
func (f *Finder) beside(cells []int32, mean, p, q colour.Lab) []int32 {
	axis := colour.Lab{L: p.L - q.L, A: p.A - q.A, B: p.B - q.B}
	size := axis.L*axis.L + axis.A*axis.A + axis.B*axis.B
	limit := besideWay + 2*f.planes.noise
	kept := make([]int32, 0, len(cells))
	for _, i := range cells {
		c := labAt(&f.planes.flat, i)
		l, a, b := c.L-mean.L, c.A-mean.A, c.B-mean.B
		t := (l*axis.L + a*axis.A + b*axis.B) / max(size, 1e-9)
		l, a, b = l-t*axis.L, a-t*axis.A, b-t*axis.B
		if l*l+a*a+b*b <= limit*limit {
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
		c := labAt(&f.planes.flat, i)
		l, a, b := c.L-mean.L, c.A-mean.A, c.B-mean.B
		if d := l*l + a*a + b*b; d < nearest {
			best, nearest = i, d
		}
	}
	return best
}

// pin sets a spot's hue and its place: the middle of a cell, in pixels of the source, and a
// square that fits.
func (f *Finder) pin(spot *analysis.Spot, cell int32) {
	at := f.sourceOf(int(cell))
	scale := float64(f.source.width) / float64(f.source.across)
	room := (2*float64(f.planes.depth[cell])/depthUnit - 1) * scale
	size := 1
	for _, offered := range [...]int{3, 5, 11} {
		if float64(offered) <= room {
			size = offered
		}
	}
	spot.X, spot.Y, spot.Size = &at.X, &at.Y, &size
	spot.PointAtHue()
}

// sourceOf returns the source pixel in the middle of a cell.
func (f *Finder) sourceOf(cell int) image.Point {
	s := &f.source
	x, y := cell%s.across, cell/s.across
	return image.Pt((2*x+1)*s.width/(2*s.across), (2*y+1)*s.height/(2*s.down))
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
	n := float64(max(len(cells), 1)) * cellLab
	return colour.Lab{L: float64(sum[0]) / n, A: float64(sum[1]) / n, B: float64(sum[2]) / n}
}

// meanSpot reads the mean of cells in linear light.
func (f *Finder) meanSpot(cells []int32) analysis.Spot {
	var sum [3]uint64
	for _, i := range cells {
		for c := range sum {
			sum[c] += uint64(f.source.linear[3*int(i)+c])
		}
	}
	n := float64(max(len(cells), 1)) * fixed.LinearWhite
	return analysis.SpotOfLight(float64(sum[0])/n, float64(sum[1])/n, float64(sum[2])/n)
}
