package edges

import "math"

// A border between two cells, the one before and the one behind, is looked at from both sides: from
// the third cells on, so that two cells on either side may be of a soft edge or a line. A side is
// that cell, its two neighbours along the border and the one further inside.
const (
	nearReach  = 2 // cells from the one beside the border to the side's first
	deepReach  = 3
	slopeReach = 5 // as far inside is read how the side itself changes
	sideCells  = 4
	apart      = 2*nearReach + 1 // cells from the one side to the other
)

// candidate says what may carry an edge between two cells.
type candidate = uint8

const (
	none candidate = iota
	byColour
	byLightness
)

// Distances in L*a*b* beyond which no edge can be, of single cells: the options hold for means of
// cells, so there is room on every side (a test shows that no pair of colours gets lost even without
// it). They decide nothing, but that what the options allow to be lost beyond half a tone is no longer
// looked at as an edge that lightness alone carries.
const (
	room         = 2.0
	mostColourL  = 12.0 // for each tone
	leastColour  = 0.5  // for each CIEDE2000 that lightness leaves
	leastLightL  = 8.0  // for each tone
	mostLightHue = 12.0 // for each CIEDE2000
)

// gate are such distances for some options, in 1/cellLab; of a* and b* together they are squared.
type gate struct{ mostColourL, leastColour, leastLightL, mostLightHue int64 }

func gateOf(o *Options) gate {
	in := func(lab float64) int64 { return int64(cellLab * max(0, lab)) }
	colour, hue := max(1, in(o.leastColour()-room)), in(mostLightHue*o.MostColourOff+room)
	return gate{in(mostColourL*o.MostTones + room), colour * colour, in(leastLightL*o.LeastTones - room), hue * hue}
}

// leastColour is how far a* and b* are apart at least where colour carries an edge: CIEDE2000 has the
// difference of L* once at most, and of these twice.
func (o *Options) leastColour() float64 {
	e, l := o.LeastCIEDE2000, mostColourL*o.MostTones
	return leastColour * math.Sqrt(max(0, e*e-l*l))
}

// lookAcross looks across all borders of some rows' cells, which hold none yet.
func (f *Finder) lookAcross(from, to int) {
	for y := from; y < to; y++ {
		first, up, down := y*f.w, -min(1, y)*f.w, min(1, f.h-1-y)*f.w
		f.candidates(first+deepReach, first+f.w-1-deepReach, 1, func(i int, by candidate) {
			if f.holds(by, i, walk{1, i - first, f.w}, up, down) {
				f.across[i] = by
			}
		})
		if y < deepReach || y+1+deepReach >= f.h {
			continue
		}
		f.candidates(first, first+f.w, f.w, func(i int, by candidate) {
			if x := i - first; f.holds(by, i, walk{f.w, y, f.h}, -min(1, x), min(1, f.w-1-x)) {
				f.below[x*f.h+y] = by
			}
		})
	}
}

// walk is a way across a border: how many cells further the next one is, at which of how many on
// the way it begins.
type walk struct{ step, at, of int }

// candidates calls closer with the cells from one to before another behind which there may be an edge,
// by no more than how far the two sides' first cells are apart.
func (f *Finder) candidates(from, to, step int, closer func(i int, by candidate)) {
	if from >= to {
		return
	}
	before, behind := f.cells[from-nearReach*step:][:to-from], f.cells[from+(1+nearReach)*step:][:to-from]
	for k, p := range before {
		q := behind[k]
		if p == q { // painted pictures are full of flat patches
			continue
		}
		l, a, b := q.part(0)-p.part(0), q.part(1)-p.part(1), q.part(2)-p.part(2)
		l = max(l, -l)
		switch hue := a*a + b*b; {
		case l <= f.gate.mostColourL && hue >= f.gate.leastColour:
			closer(from+k, byColour)
		case l >= f.gate.leastLightL && hue <= f.gate.mostLightHue:
			closer(from+k, byLightness)
		}
	}
}

// An edge is told from noise by how far its sides are apart beside how much each of them varies:
// the step is at least twice the root of the variances' sum (our choice; noise has less than half
// of that on average). It is told from a slope by what is left of the step when what the sides'
// own slopes explain is taken away: half of it at least (our choice).
const (
	leastStep  = 4 // squared, in variances
	leastSharp = 4 // squared and inverted
)

// holds confirms a candidate by all of its two sides' cells, in what it is by: a* and b*, or L*. up and
// down lead to a cell's neighbours along the border.
func (f *Finder) holds(by candidate, i int, w walk, up, down int) bool {
	p, q := f.side(i-nearReach*w.step, -w.step, up, down), f.side(i+(1+nearReach)*w.step, w.step, up, down)
	if p.sum.left() || q.sum.left() {
		return false
	}
	step := apartBy(by, q.sum.part(0)-p.sum.part(0), q.sum.part(1)-p.sum.part(1), q.sum.part(2)-p.sum.part(2))
	if (sideCells-1)*step < leastStep*(p.spread(by)+q.spread(by)) {
		return false
	}
	rest := [3]int64{}
	for c := range rest {
		rest[c] = f.beyondSlope(c, q.sum.part(c)-p.sum.part(c), i, w, up, down)
	}
	return leastSharp*apartBy(by, rest[0], rest[1], rest[2]) >= step
}

// apartBy is the squared distance in a* and b*, or in L*.
func apartBy(by candidate, l, a, b int64) int64 {
	if by == byLightness {
		return l * l
	}
	return a*a + b*b
}

// beyondSlope returns what is left of a step d, of a side's sums, when the sides' own slopes that go
// the same way are taken away.
func (f *Finder) beyondSlope(c int, d int64, i int, w walk, up, down int) int64 {
	const rows, over = 3, slopeReach - nearReach
	slope := int64(0) // of two sides and three rows, over so many cells each
	for _, j := range [rows]int{i, i + up, i + down} {
		if w.at >= slopeReach {
			slope += f.cells[j-nearReach*w.step].part(c) - f.cells[j-slopeReach*w.step].part(c)
		}
		if w.at+1+slopeReach < w.of {
			slope += f.cells[j+(1+slopeReach)*w.step].part(c) - f.cells[j+(1+nearReach)*w.step].part(c)
		}
	}
	explained := slope * sideCells * apart / (2 * rows * over)
	switch {
	case d > 0 && explained > 0:
		return max(0, d-explained)
	case d < 0 && explained < 0:
		return min(0, d-explained)
	}
	return d
}
