package edges

import (
	"encoding/binary"
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// mark is a place on an edge, in the middle of where it was seen on one way across.
type mark struct {
	x, y  int32 // half cells
	axis  uint8 // 0: seen from left to right, 1: from above to below
	kind  Kind
	turns bool     // its sides are the other way round than the chain's first one's
	chain int32    // number plus 1; 0 for none yet
	light [2]light // of the sides, the left or upper first
	lab   [2]colour.Lab
}

// gather makes the marks.
func (f *Finder) gather() {
	f.marks = f.marks[:0]
	for y := range f.h {
		f.gatherOn(f.across[y*f.w:][:f.w], 0, y, y*f.w, 1)
	}
	for x := range f.w {
		f.gatherOn(f.below[x*f.h:][:f.h], 1, x, x, f.w)
	}
}

// mostGap is how many borders, on a way across, may lie between two that see the same edge: more
// than noise takes away, fewer than lie between two edges.
const mostGap = 3

// gatherOn makes the marks of one way across all of the picture: line number lane, whose cells
// begin at first.
func (f *Finder) gatherOn(seen []candidate, axis uint8, lane, first, step int) {
	from, to := -1, -1 // an edge is seen there
	for t := 0; t < len(seen); t++ {
		if t+8 <= len(seen) && binary.LittleEndian.Uint64(seen[t:]) == 0 { // most of a picture has none
			t += 7
			continue
		}
		by := seen[t]
		if by == none {
			continue
		}
		if from >= 0 && (t-to > mostGap || by != seen[to] || !f.sameWay(first+to*step, first+t*step, step, by)) {
			f.mark(from, to, axis, lane, first, step, seen[from])
			from = -1
		}
		if from < 0 {
			from = t
		}
		to = t
	}
	if from >= 0 {
		f.mark(from, to, axis, lane, first, step, seen[from])
	}
}

// sameWay reports whether the step behind two cells goes the same way.
func (f *Finder) sameWay(i, j, step int, by candidate) bool {
	d := func(c int) int64 {
		return f.stepAt(i, step, c) * f.stepAt(j, step, c)
	}
	if by == byLightness {
		return d(0) > 0
	}
	return d(1)+d(2) > 0
}

// stepAt is the step behind a cell in L*, a* or b*.
func (f *Finder) stepAt(i, step, c int) int64 {
	return f.cells[i+(1+nearReach)*step].part(c) - f.cells[i-nearReach*step].part(c)
}

// mark marks the middle of where an edge was seen, if it is one by the exact formulas.
func (f *Finder) mark(from, to int, axis uint8, lane, first, step int, by candidate) {
	m := mark{axis: axis, x: int32(from + to + 2), y: int32(2*lane + 1)}
	up, down := -min(1, lane)*f.w, min(1, f.h-1-lane)*f.w
	if axis == 1 {
		m.x, m.y = m.y, m.x
		up, down = -min(1, lane), min(1, f.w-1-lane)
	}
	before, behind := first+(from+to)/2*step, first+(from+to+1)/2*step // the same where the middle is a border
	for _, i := range [2]int{before, behind} {
		f.addSide(&m.light[0], i-nearReach*step, -step, up, down)
		f.addSide(&m.light[1], i+(1+nearReach)*step, step, up, down)
	}
	for i := range m.lab {
		m.lab[i] = m.light[i].lab()
	}
	kind, is := f.options.kindOf(by, m.lab[0], m.lab[1])
	if !is {
		return
	}
	if m.kind = kind; kind == Lost && f.lined(&m, before, behind, step, up, down) {
		m.kind = Lined
	}
	f.marks = append(f.marks, m)
}

// addSide adds half of a side's mean light.
func (f *Finder) addSide(l *light, i, inside, up, down int) {
	for _, j := range [sideCells]int{i, i + inside, i + up, i + down} {
		f.add(l, j, 0.5/sideCells)
	}
}

// kindOf returns what carries an edge between two colours, not regarding lines, and whether
// anything does so alone.
func (o *Options) kindOf(by candidate, p, q colour.Lab) (Kind, bool) {
	tones := math.Abs(colour.Value(q.L) - colour.Value(p.L))
	if by == byColour {
		return Lost, tones <= o.MostTones && colour.CIEDE2000(p, q) >= o.LeastCIEDE2000
	}
	p.L = (p.L + q.L) / 2
	level := q
	level.L = p.L
	return Lightness, tones >= o.LeastTones && colour.CIEDE2000(p, level) <= o.MostColourOff
}

// lined reports whether a line, darker or lighter than both sides, runs between them: by how much
// the cells between differ from the sides in L*, all together. What painting programs make of an
// edge that is softened in the codes themselves is darker than its sides too, the more so the
// further their colours are apart; it doesn't count: two cells of it at most, by its darkest.
func (f *Finder) lined(m *mark, before, behind, step, up, down int) bool {
	sum, rows := 0.0, 0.0
	for _, j := range [3]int{up, 0, down} {
		for i := before - (nearReach-1)*step; i <= behind+nearReach*step; i += step {
			sum += (m.lab[0].L+m.lab[1].L)/2 - float64(f.cells[i+j].part(0))/cellLab
		}
		rows++
	}
	darker, least := sum/rows, f.options.LineLightness
	return -darker >= least || darker >= least && darker >= least+2*m.blendDarker()
}

// blendDarker returns by how much, in L*, the middle between the sides' codes is darker than they
// are.
func (m *mark) blendDarker() float64 {
	var blend light
	for c := range blend {
		blend[c] = colour.LinearOf((colour.EncodedOf(m.light[0][c]) + colour.EncodedOf(m.light[1][c])) / 2)
	}
	return max(0, (m.lab[0].L+m.lab[1].L)/2-blend.lab().L)
}

// code returns the nearest 8-bit colour of light.
func (l light) code() colour.RGB {
	code := func(v float64) uint8 { return fixed.CodeOf(uint16(math.Round(fixed.LinearWhite * v))) }
	return colour.RGB{R: code(l[0]), G: code(l[1]), B: code(l[2])}
}
