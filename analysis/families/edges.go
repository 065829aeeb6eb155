package families

import (
	"cmp"
	"math"
	"slices"

	"app.tonedesk/analysis/internal/fixed"
)

// familyEdge is where two areas touch.
type familyEdge struct {
	a, b   int32    // areas; a < b until areas are joined
	length int      // pairs of cells, one on each side
	lined  int      // how many of them have a dark line between them
	line   [3]int64 // linear light of the line's darkest pixels, added up

	// Of the sides a and b, added up: L*a*b* in 1/cellLab close to the edge and further
	// inside, and the cells from the one to the other.
	near, far [2][3]int64
	reach     [2]int
}

// Close to an edge is the second cell that isn't thin, further inside the sixth.
const (
	nearReach = 2
	farReach  = 6
)

// findEdges measures where areas touch.
func (f *Finder) findEdges() {
	s, a := &f.source, &f.areas
	w, h := s.across, s.down
	index := map[[2]int32]int32{}
	a.edges = a.edges[:0]
	for i, l := range a.label {
		if l == noArea {
			continue
		}
		x, y := i%w, i/w
		if x+1 < w && a.label[i+1] != noArea && a.label[i+1] != l {
			f.edgeAt(index, i, 1, min(x, farReach), min(w-2-x, farReach))
		}
		if y+1 < h && a.label[i+w] != noArea && a.label[i+w] != l {
			f.edgeAt(index, i, w, min(y, farReach), min(h-2-y, farReach))
		}
	}
	slices.SortFunc(a.edges, func(p, q familyEdge) int {
		return cmp.Or(cmp.Compare(p.a, q.a), cmp.Compare(p.b, q.b))
	})
}

// edgeAt adds the pair of cells i and i+step, with so many cells behind each.
func (f *Finder) edgeAt(index map[[2]int32]int32, i, step, back, ahead int) {
	p, a := &f.planes, &f.areas
	la, lb := a.label[i], a.label[i+step]
	key := [2]int32{min(la, lb), max(la, lb)}
	k, ok := index[key]
	if !ok {
		k = int32(len(a.edges))
		index[key] = k
		a.edges = append(a.edges, familyEdge{a: key[0], b: key[1]})
	}
	e := &a.edges[k]
	e.length++
	near1, far1, dark1 := f.reachInto(i, -step, back)
	near2, far2, dark2 := f.reachInto(i+step, step, ahead)
	if cell := f.linedBetween(near1, near2, dark1, dark2); cell >= 0 {
		e.addInk(f.darkestAt(cell))
	}
	first := 0
	if la > lb {
		first = 1
	}
	e.reach[first] += (near1 - far1) / step
	e.reach[1-first] += (far2 - near2) / step
	for c := range 3 {
		e.near[first][c] += int64(p.raw[c][near1])
		e.far[first][c] += int64(p.raw[c][far1])
		e.near[1-first][c] += int64(p.raw[c][near2])
		e.far[1-first][c] += int64(p.raw[c][far2])
	}
}

// reachInto returns the cells of i's area that lie near the edge and further inside, and the
// darkest thin cell in between, -1 if there is none.
func (f *Finder) reachInto(i, step, room int) (near, far, dark int) {
	p, a := &f.planes, &f.areas
	l, seen := a.label[i], 0
	near, far, dark = i, i, -1
	for k, steps := i, 0; steps <= room && a.label[k] == l; k, steps = k+step, steps+1 {
		if p.thin[k] != 0 {
			if seen == 0 && (dark < 0 || p.raw[0][k] < p.raw[0][dark]) {
				dark = k
			}
			continue
		}
		seen++
		if seen <= nearReach {
			near = k
		}
		far = k
		if seen == farReach {
			break
		}
	}
	return near, far, dark
}

// A line between two areas is so much darker than both, and not so much more saturated: that
// is an accent.
const (
	lineDarker    = 4 * cellLab
	lineSaturated = 6.0 // C*ab
)

// linedBetween returns which of two thin cells, which may be -1, is a line between two
// places; -1 for neither.
func (f *Finder) linedBetween(near1, near2, dark1, dark2 int) int {
	p := &f.planes
	if dark1 < 0 || dark2 >= 0 && p.raw[0][dark2] < p.raw[0][dark1] {
		dark1 = dark2
	}
	if dark1 < 0 || p.raw[0][dark1] > min(p.flat[0][near1], p.flat[0][near2])-lineDarker {
		return -1
	}
	if f.lineIsAccent(dark1, near1, near2) {
		return -1
	}
	return dark1
}

// A dark band whose hue lies turnedFar beyond those of both sides, in what standsOut counts,
// is an accent if it is no more than turnedBelow in L* below them, as a tinted line is;
// sides of unlike hues have none (found on drawn scenes; no source).
const (
	turnedFar   = 1.5
	turnedBelow = 13.0
)

// lineIsAccent reports whether what is thin and dark between two places is an accent.
func (f *Finder) lineIsAccent(dark, near1, near2 int) bool {
	p := &f.planes
	c, a, b := labAt(&p.raw, int32(dark)), labAt(&p.flat, int32(near1)), labAt(&p.flat, int32(near2))
	if c.Chroma() >= max(a.Chroma(), b.Chroma())+lineSaturated {
		return true
	}
	if c.L < min(a.L, b.L)-turnedBelow || min(c.Chroma(), a.Chroma(), b.Chroma()) < accentHue || math.Abs(TurnBetween(a.Hue(), b.Hue())) > mostTurn {
		return false
	}
	return standsOut(c, a, b) >= turnedFar
}

// isLined reports whether a line runs along most of the edge.
func (e *familyEdge) isLined() bool { return 2*e.lined > e.length }

// other returns the area on the other side of an edge.
func (e *familyEdge) other(area int32) int32 { return e.a + e.b - area }

// contrast returns how far the two sides are apart at the edge beyond what their own slopes
// explain, in L*a*b*: a soft edge between even sides has little.
func (e *familyEdge) contrast() float64 {
	sum := 0.0
	for c := range 3 {
		step := float64(e.near[0][c]-e.near[1][c]) / float64(e.length)
		slope, sides := 0.0, 0.0 // a cell toward the first side
		for side, sign := range [2]float64{1, -1} {
			if e.reach[side] > 0 {
				slope += sign * float64(e.far[side][c]-e.near[side][c]) / float64(e.reach[side])
				sides++
			}
		}
		across := slope / max(sides, 1) * (2*nearReach - 1)
		if across*step > 0 { // the same way
			step = math.Copysign(max(0, math.Abs(step)-math.Abs(across)), step)
		}
		sum += step * step
	}
	return math.Sqrt(sum) / cellLab
}

// add adds all of another edge; turned says that its sides are the other way round.
func (e *familyEdge) add(o *familyEdge, turned bool) {
	e.addLine(o)
	for side := range 2 {
		from := side
		if turned {
			from = 1 - side
		}
		e.reach[side] += o.reach[from]
		for c := range 3 {
			e.near[side][c] += o.near[from][c]
			e.far[side][c] += o.far[from][c]
		}
	}
}

// addInk counts a place with a line of such light.
func (e *familyEdge) addInk(light [3]int64) {
	e.lined++
	for c := range e.line {
		e.line[c] += light[c]
	}
}

// darkestAt returns the light of a cell's darkest pixel, LinearWhite being white.
func (f *Finder) darkestAt(cell int) (light [3]int64) {
	for c := range light {
		light[c] = int64(fixed.ReduceTables.Red[uint8(f.source.dark[cell]>>(8*c))])
	}
	return light
}

// addLine adds another edge's length and line.
func (e *familyEdge) addLine(o *familyEdge) {
	e.length += o.length
	e.lined += o.lined
	for c := range e.line {
		e.line[c] += o.line[c]
	}
}
