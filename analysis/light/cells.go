package light

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// Cells is a small picture in which forms are looked for that are no local colour that was found:
// see others. It is never changed once it is made.
type Cells struct {
	w, h  int
	light [][3]uint16 // linear, fixed.LinearWhite is white
	left  []bool      // left out
}

// LongestCells is how many cells the longer side of Cells has: grain is gone in them, and what is
// smaller than a side may be too (leastSide; our choice).
const LongestCells = 240

// Evening out: so often a cell becomes the mean of those around it that are no further from it than
// an edge is (found on painted scenes of open seeds).
const (
	evenings   = 3
	sameWithin = 9.0 // of L*a*b*
)

// Take returns the cells of a picture. Pixels that fail Check have none. mask says what is left
// out; nil for nothing.
func Take(p analysis.Pixels, mask *analysis.Mask) (c *Cells) {
	reduce.Once(p, mask, LongestCells, func(d *reduce.Picture) { c = CellsOf(d) })
	return c
}

// CellsOf returns the cells of a picture that is reduced to LongestCells, of which nothing is kept.
func CellsOf(d *reduce.Picture) *Cells {
	n := d.Width * d.Height
	c := &Cells{w: d.Width, h: d.Height, light: make([][3]uint16, n), left: make([]bool, n)}
	for i := range n {
		c.light[i], c.left[i] = [3]uint16(d.Linear[3*i:]), d.Left[i] != 0
	}
	return c
}

// linearOf returns the mean of so many cells' light, 0 to 1.
func linearOf(sum [3]uint64, cells int) (light [3]float64) {
	for c, v := range sum {
		light[c] = float64(v) / float64(cells) / fixed.LinearWhite
	}
	return light
}

func labOf(light [3]float64) colour.Lab { return colour.LabOf(light[0], light[1], light[2]) }

// evenedOut returns the cells' colours without grain, and with their edges.
func (c *Cells) evenedOut() []colour.Lab {
	now, next := make([]colour.Lab, len(c.light)), make([]colour.Lab, len(c.light))
	for i, v := range c.light {
		now[i] = labOf(linearOf([3]uint64{uint64(v[0]), uint64(v[1]), uint64(v[2])}, 1))
	}
	for range evenings {
		for i := range now {
			next[i] = c.evenAt(now, i)
		}
		now, next = next, now
	}
	return now
}

// evenAt returns the mean of a cell and of those around it that are like it.
func (c *Cells) evenAt(lab []colour.Lab, i int) (mean colour.Lab) {
	x, y, own, n := i%c.w, i/c.w, lab[i], 0.0
	for v := max(y-1, 0); v <= min(y+1, c.h-1); v++ {
		for _, q := range lab[v*c.w+max(x-1, 0) : v*c.w+min(x+1, c.w-1)+1] {
			if near(q, own, sameWithin) {
				mean.L, mean.A, mean.B, n = mean.L+q.L, mean.A+q.A, mean.B+q.B, n+1
			}
		}
	}
	return colour.Lab{L: mean.L / n, A: mean.A / n, B: mean.B / n}
}

// near reports whether two colours are no further apart in L*a*b*.
func near(p, q colour.Lab, most float64) bool {
	l, a, b := p.L-q.L, p.A-q.A, p.B-q.B
	return l*l+a*a+b*b <= most*most
}
