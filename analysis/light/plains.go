package light

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// steepest are how far two cells on either side of one are apart at most, in L*a*b*, for it to lie on
// a plain and not in an edge or a soft one's half-tones: as far as grain that is left makes it, and
// then less, for sides that a wide half-tone joins (found on painted scenes of open seeds).
var steepest = [...]float64{4, 2, 1}

// plains are the areas of even colour in a picture's cells.
type plains struct {
	*Cells
	taken []bool  // cells in which there are none
	of    []int32 // the plain of each cell, an index into list; noPlain for none
	list  []plain

	steepest float64
}

const noPlain = -1

// plain is such an area.
type plain struct {
	cells int
	sum   [3]uint64 // of their light
	rim   int       // cells' sides at the picture's frame
}

// mean returns a plain's light, 0 to 1.
func (p *plain) mean() [3]float64 { return linearOf(p.sum, p.cells) }

// add adds another plain.
func (p *plain) add(q *plain) {
	p.cells += q.cells
	for c := range p.sum {
		p.sum[c] += q.sum[c]
	}
}

// isGround reports whether so much of a plain lies at the picture's frame as of a form's never does.
func (p *plain) isGround() bool { return float64(p.rim) > mostCut*leastOutline(float64(p.cells)) }

// plains returns the areas of even colour, evened out, of what isn't taken; those that are too small
// to be a form's side are none.
func (c *Cells) plains(lab []colour.Lab, taken []bool, steepest float64) *plains {
	p := &plains{Cells: c, taken: taken, of: make([]int32, len(lab)), steepest: steepest}
	for i := range p.of {
		p.of[i] = noPlain
	}
	level := p.level(lab)
	var around []int
	for i := range p.of {
		if !level[i] || p.of[i] != noPlain {
			continue
		}
		around = p.grow(around[:0], i, lab, level)
		if last := len(p.list) - 1; float64(p.list[last].cells) < leastSide*float64(len(p.of)) {
			for _, k := range around {
				p.of[k], level[k] = noPlain, false
			}
			p.list = p.list[:last]
		}
	}
	return p
}

// level reports which cells lie on a plain.
func (p *plains) level(lab []colour.Lab) []bool {
	level := make([]bool, len(lab))
	for i := range level {
		x, y := i%p.w, i/p.w
		across := x == 0 || x == p.w-1 || near(lab[i-1], lab[i+1], p.steepest)
		down := y == 0 || y == p.h-1 || near(lab[i-p.w], lab[i+p.w], p.steepest)
		level[i] = !p.taken[i] && across && down
	}
	return level
}

// grow makes a plain of what hangs together with a cell, and returns its cells.
func (p *plains) grow(cells []int, first int, lab []colour.Lab, level []bool) []int {
	id, made := int32(len(p.list)), plain{}
	cells = append(cells, first)
	p.of[first] = id
	for next := 0; next < len(cells); next++ {
		i := cells[next]
		made.cells++
		for c, v := range p.light[i] {
			made.sum[c] += uint64(v)
		}
		x, y := i%p.w, i/p.w
		for _, way := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			u, v := x+way[0], y+way[1]
			if u < 0 || v < 0 || u >= p.w || v >= p.h {
				made.rim++
				continue
			}
			if k := v*p.w + u; level[k] && p.of[k] == noPlain && near(lab[k], lab[i], p.steepest) {
				p.of[k] = id
				cells = append(cells, k)
			}
		}
	}
	p.list = append(p.list, made)
	return cells
}

// leastOutline is the outline of a disc of so many cells: the least that an area's can be.
func leastOutline(cells float64) float64 { return 2 * math.Sqrt(math.Pi*cells) }
