package edges

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
type candidate uint8

const (
	none candidate = iota
	byColour
	byLightness
)

// Distances of single cells, in 1/cellLab, beyond which no edge can be: the options' defaults hold
// for means of cells, so these leave room on every side (a test shows that no pair of colours gets
// lost by the narrower ones, without the room). They decide nothing, but that what the options allow to
// be lost beyond half a tone is no longer looked at as an edge that lightness alone carries.
const (
	room         = 2 * cellLab
	mostColourL  = 12 * cellLab // for each tone that the options allow; and room
	leastColour  = 4*cellLab - room
	leastLightL  = 8*cellLab - room
	mostLightHue = 60*cellLab + room
)

// lookAcross looks across all borders of some rows' cells.
func (f *Finder) lookAcross(from, to int) {
	for y := from; y < to; y++ {
		up, down := -min(1, y)*f.w, min(1, f.h-1-y)*f.w
		for x := range f.w {
			i := y*f.w + x
			f.across[i] = f.look(i, walk{1, x, f.w}, up, down)
			f.below[x*f.h+y] = f.look(i, walk{f.w, y, f.h}, -min(1, x), min(1, f.w-1-x))
		}
	}
}

// walk is a way across a border: how many cells further the next one is, at which of how many on
// the way it begins.
type walk struct{ step, at, of int }

// look says what may carry an edge behind cell i. up and down lead to its neighbours along it.
func (f *Finder) look(i int, w walk, up, down int) candidate {
	if w.at < deepReach || w.at+1+deepReach >= w.of {
		return none
	}
	p, q := &f.cells[i-nearReach*w.step], &f.cells[i+(1+nearReach)*w.step]
	l, a, b := abs(int32(q.l)-int32(p.l)), int32(q.a)-int32(p.a), int32(q.b)-int32(p.b)
	switch hue := a*a + b*b; {
	case l <= f.mostL && hue >= leastColour*leastColour:
		return f.lookCloser(byColour, i, w, up, down)
	case l >= leastLightL && hue <= mostLightHue*mostLightHue:
		return f.lookCloser(byLightness, i, w, up, down)
	}
	return none
}

func abs(v int32) int32 {
	if v < 0 {
		return -v
	}
	return v
}

// An edge is told from noise by how far its sides are apart beside how much each of them varies:
// the step is at least twice the root of the variances' sum (our choice; noise has less than half
// of that on average). It is told from a slope by what is left of the step when what the sides'
// own slopes explain is taken away: half of it at least (our choice).
const (
	leastStep  = 4 // squared, in variances
	leastSharp = 4 // squared and inverted
)

// lookCloser confirms a candidate by all of its two sides' cells, in what it is by: a* and b*, or L*.
func (f *Finder) lookCloser(by candidate, i int, w walk, up, down int) candidate {
	var p, q side
	p.read(f, i-nearReach*w.step, -w.step, up, down)
	q.read(f, i+(1+nearReach)*w.step, w.step, up, down)
	if p.left || q.left {
		return none
	}
	first, last := 0, 0
	if by == byColour {
		first, last = 1, 2
	}
	var step, spread int64
	for c := first; c <= last; c++ {
		d := q.sum[c] - p.sum[c]
		step += d * d
		spread += p.spread(c) + q.spread(c)
	}
	if (sideCells-1)*step < leastStep*spread {
		return none
	}
	contrast := int64(0)
	for c := first; c <= last; c++ {
		rest := f.beyondSlope(c, q.sum[c]-p.sum[c], i, w, up, down)
		contrast += rest * rest
	}
	if leastSharp*contrast < step {
		return none
	}
	return by
}

// side is the cells beside a border.
type side struct {
	sum, squares [3]int64 // of L*, a*, b*
	left         bool     // one of them is left out
}

func (s *side) read(f *Finder, i, inside, up, down int) {
	for _, j := range [sideCells]int{i, i + inside, i + up, i + down} {
		c := &f.cells[j]
		l, a, b := int64(c.l), int64(c.a), int64(c.b)
		s.sum[0], s.sum[1], s.sum[2] = s.sum[0]+l, s.sum[1]+a, s.sum[2]+b
		s.squares[0], s.squares[1], s.squares[2] = s.squares[0]+l*l, s.squares[1]+a*a, s.squares[2]+b*b
		s.left = s.left || c.left
	}
}

// spread returns the cells' variance in L*, a* or b*, times sideCells - 1 and squared sideCells.
func (s *side) spread(c int) int64 {
	return sideCells * (sideCells*s.squares[c] - s.sum[c]*s.sum[c])
}

// beyondSlope returns what is left of a step d, of a side's sums, when the sides' own slopes that go
// the same way are taken away.
func (f *Finder) beyondSlope(c int, d int64, i int, w walk, up, down int) int64 {
	const rows, over = 3, slopeReach - nearReach
	slope := int64(0) // of two sides and three rows, over so many cells each
	for _, j := range [rows]int{i, i + up, i + down} {
		if w.at >= slopeReach {
			slope += f.part(j-nearReach*w.step, c) - f.part(j-slopeReach*w.step, c)
		}
		if w.at+1+slopeReach < w.of {
			slope += f.part(j+(1+slopeReach)*w.step, c) - f.part(j+(1+nearReach)*w.step, c)
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

// part returns L*, a* or b* of a cell.
func (f *Finder) part(i, c int) int64 {
	p := &f.cells[i]
	return int64([3]int16{p.l, p.a, p.b}[c])
}
