package families

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// Across an edge is read at stations, every stationStep borders of cells, each the mean with the
// ones before and behind it: so grain counts little. From the edge, and what is marked as an accent
// there, sideReach cells of each side are read, of which the outer half is the side, and up to
// accentNear may be an accent (our choice).
const (
	stationStep = 2
	sideReach   = 20
	accentNear  = 10
	mostReach   = sideReach + wideReach
	leastPiece  = 8 // borders of cells that an edge has at least
	bandOfThree = 3
)

// The sides of an edge.
const (
	intoLight = iota
	intoShadow
)

// station is what lies across an edge at a place, by the distance into the light and into the
// shadow, in cells.
type station struct {
	at   int // its number plus 1; 0 for none
	sum  [2][mostReach][3]int32
	n    [2][mostReach]int32
	cell [2][mostReach]int32 // one of those added up
	gap  [2]int              // cells of the side, from the edge on, that the finder isn't sure of
}

// told is what is told of a station.
type told struct {
	off  float64 // L*, accent minus the side that is nearer in lightness
	cell int32   // that shows the accent
}

// followEdge judges those pieces of a light side's border, which was followed, that lie on the
// form's own shadow.
func (f *Finder) followEdge(list []Form, first int32) {
	w := &f.forms
	cracks, own := w.trail.cracks, w.of[first]
	on := make([]bool, len(cracks))
	for k, c := range cracks {
		on[k] = c.out != noCell && w.of[c.out] == own+1
	}
	for _, r := range runsOf(on, true, true) {
		if r.count < leastPiece {
			continue
		}
		w.piece = w.piece[:0]
		for k := range r.count {
			w.piece = append(w.piece, cracks[(r.from+k)%len(cracks)])
		}
		closed := r.count == len(cracks)
		w.trail.place(w.piece, f.source.across, closed)
		f.judgeEdge(&list[own>>1], int(own>>1), closed)
	}
}

// judgeEdge adds the piece of an edge whose places are the trail's to a form, of a number.
func (f *Finder) judgeEdge(form *Form, number int, closed bool) {
	w, t := &f.forms, &f.forms.trail
	n := len(w.piece)
	is, tells := make([]bool, n), make([]told, n)
	for k := range w.band {
		w.band[k].at = 0
	}
	for first := 0; first < n; first += stationStep {
		t, ok := f.tell(first/stationStep, closed, &w.found.List[form.Family])
		for k := first; k < min(first+stationStep, n); k++ {
			is[k], tells[k] = ok, t
		}
	}
	closeRuns(is, t.length, closed)
	if form.Edge == nil {
		form.Edge = &FormEdge{Accents: []Stretch{}, Leaves: []Stretch{}}
	}
	e, across := form.Edge, f.source.grid.X.Parts()
	for _, v := range t.length {
		e.Length += v / across
	}
	leaves := make([]bool, n)
	for _, r := range runsOf(is, true, closed) {
		fillTold(tells, r)
		for k := range r.count {
			i := (r.from + k) % n
			leaves[i] = analysis.AsPrinted(math.Abs(tells[i].off)) > w.rules.KeepsWithin
			w.accents[number].add(f.lightAt(int(tells[i].cell)))
		}
		st := f.stretchOf(r)
		st.Difference = new(meanOff(tells, r))
		e.Accents = append(e.Accents, st)
	}
	closeRuns(leaves, t.length, closed)
	for _, r := range runsOf(leaves, true, closed) {
		st := f.stretchOf(r)
		st.Difference = new(meanOff(tells, r))
		e.Leaves = append(e.Leaves, st)
	}
}

// tell tells whether an accent lies at a station of the piece of a family's edge.
func (f *Finder) tell(at int, closed bool, family *Family) (told, bool) {
	w := &f.forms
	count := (len(w.piece) + stationStep - 1) / stationStep
	var near [bandOfThree]*station
	for k := range near {
		i := at + k - 1
		if closed {
			i = (i + count) % count
		}
		if i >= 0 && i < count {
			near[k] = f.station(i, closed)
		}
	}
	side := [2]colour.Lab{family.Light.Lab, family.Shadow.Lab}
	var gap [2]int
	for s := range side {
		for _, n := range near {
			if n != nil {
				gap[s] = max(gap[s], n.gap[s])
			}
		}
		if lab, ok := sideOf(&near, s, gap[s]); ok {
			side[s] = lab
		}
	}
	return bandOf(&near, gap, side)
}

// bandOf tells of the accent at an edge from what lies across it, where its sides aren't sure of so
// many cells and have such colours.
func bandOf(near *[bandOfThree]*station, gap [2]int, side [2]colour.Lab) (told, bool) {
	light, shadow := side[intoLight], side[intoShadow]
	var stands [2 * mostReach]float64 // from deep in the shadow to deep in the light
	best := mostReach
	for s := range side {
		for d := range min(gap[s]+accentNear, mostReach) {
			c, _, ok := meanAt(near, s, d)
			if !ok {
				break
			}
			k := mostReach + d
			if s == intoShadow {
				k = mostReach - 1 - d
			}
			if mayStandOut(c, light, shadow) {
				if stands[k] = standsOut(c, light, shadow); stands[k] > stands[best] {
					best = k
				}
			}
		}
	}
	if stands[best] < 1 {
		return told{cell: noCell}, false
	}
	wide := widthAround(&stands, best, stands[best]/2)
	pure := widthAround(&stands, best, purePart*stands[best])
	middle := (pure[0] + pure[1]) / 2
	s, d := intoLight, middle-mostReach
	if middle < mostReach {
		s, d = intoShadow, mostReach-1-middle
	}
	c, cell, _ := meanAt(near, s, d)
	if !isAccent(c, light, shadow) {
		return told{cell: noCell}, false
	}
	off := nearerOff(c.L, light.L, shadow.L)
	if wide[1]-wide[0] < mixedCells && (c.L-light.L)*(c.L-shadow.L) < 0 {
		off = 0 // mixed with a side, it lies between them whatever its own lightness
	}
	return told{off, cell}, true
}

// mixedCells is how many cells an accent is wide at least for the middle of it not to be mixed with
// what lies beside it.
const mixedCells = 3

// widthAround returns the first and the last place around one at which all stand out by so much.
func widthAround(stands *[2 * mostReach]float64, at int, least float64) (ends [2]int) {
	ends = [2]int{at, at}
	for ends[0] > 0 && stands[ends[0]-1] >= least {
		ends[0]--
	}
	for ends[1]+1 < len(stands) && stands[ends[1]+1] >= least {
		ends[1]++
	}
	return ends
}

// nearerOff returns a lightness minus that of two which is nearer.
func nearerOff(l, a, b float64) float64 {
	if math.Abs(l-b) < math.Abs(l-a) {
		return l - b
	}
	return l - a
}

// mayStandOut reports, cheaply, whether standsOut may be 1: never false where it is.
func mayStandOut(c, light, shadow colour.Lab) bool {
	cc, ll, ss := c.A*c.A+c.B*c.B, light.A*light.A+light.B*light.B, shadow.A*shadow.A+shadow.B*shadow.B
	if cc > max(ll, ss) {
		return true
	}
	if min(cc, ll, ss) < accentHue*accentHue {
		return false
	}
	turn := func(p, q colour.Lab) float64 { return p.A*q.B - p.B*q.A }
	whole, first, rest := turn(light, shadow), turn(light, c), turn(c, shadow)
	facing := light.A*shadow.A+light.B*shadow.B > 0
	return !facing || whole*first < 0 || whole*rest < 0
}

// leastDeep is how many cells a side is read at least to tell its colour there; at the ends of an
// edge, where a side runs out, the whole side's is taken.
const leastDeep = 10

// sideOf returns the colour of a side at a place: of the outer half of what is read of it beyond a
// gap.
func sideOf(near *[bandOfThree]*station, side, gap int) (colour.Lab, bool) {
	deep := gap
	for deep < min(gap+sideReach, mostReach) {
		if _, _, ok := meanAt(near, side, deep); !ok {
			break
		}
		deep++
	}
	if deep < gap+leastDeep {
		return colour.Lab{}, false
	}
	var sum [3]int64
	count := 0
	for d := (gap + deep) / 2; d < deep; d++ {
		for _, n := range near {
			if n == nil {
				continue
			}
			count += int(n.n[side][d])
			for c := range sum {
				sum[c] += int64(n.sum[side][d][c])
			}
		}
	}
	return meanLab(sum, count), true
}

// meanAt returns the mean colour so deep in a side, and a cell of it.
func meanAt(near *[bandOfThree]*station, side, deep int) (c colour.Lab, cell int32, ok bool) {
	var sum [3]int32
	count := int32(0)
	for _, n := range near {
		if n == nil || n.n[side][deep] == 0 {
			continue
		}
		count += n.n[side][deep]
		for c := range sum {
			sum[c] += n.sum[side][deep][c]
		}
		cell = n.cell[side][deep]
	}
	if count == 0 {
		return c, noCell, false
	}
	if own := near[1]; own != nil && own.n[side][deep] > 0 {
		cell = own.cell[side][deep]
	}
	by := 1 / (cellLab * float64(count))
	return colour.Lab{L: by * float64(sum[0]), A: by * float64(sum[1]), B: by * float64(sum[2])}, cell, true
}

// station reads a station of the piece, unless it was read just before.
func (f *Finder) station(at int, closed bool) *station {
	w := &f.forms
	for k := range w.band {
		if s := &w.band[k]; s.at == at+1 {
			return s
		}
	}
	free := &w.band[w.oldest]
	w.oldest = (w.oldest + 1) % len(w.band)
	*free = station{at: at + 1}
	for k := at * stationStep; k < min(at*stationStep+stationStep, len(w.piece)); k++ {
		f.readAcross(free, k, closed)
	}
	return free
}

// slant is over how many places to either side the way of an edge is told.
const slant = 4

// readAcross adds what lies across a place of the piece to a station.
func (f *Finder) readAcross(s *station, k int, closed bool) {
	w, t := &f.forms, &f.forms.trail
	n := len(t.at)
	before, behind := k-slant, k+slant
	if closed {
		before, behind = (before+n*slant)%n, behind%n
	} else {
		before, behind = max(before, 0), min(behind, n-1)
	}
	dx, dy := t.at[behind].x-t.at[before].x, t.at[behind].y-t.at[before].y
	long := math.Hypot(dx, dy)
	if long == 0 {
		return
	}
	right := spotAt{-dy / long, dx / long} // into the light
	own := w.of[w.piece[k].in]
	for side, c := range [2]int32{w.piece[k].in, w.piece[k].out} {
		gap := min(int(w.deep[c]), wideReach)
		s.gap[side] = max(s.gap[side], gap)
		way := 1 - 2*float64(side)
		for d := range gap + sideReach {
			by := way * (float64(d) + 0.5)
			x, y := int(math.Floor(t.at[k].x+by*right.x)), int(math.Floor(t.at[k].y+by*right.y))
			if x < 0 || y < 0 || x >= f.source.across || y >= f.source.down {
				break
			}
			i := int32(y*f.source.across + x)
			if w.of[i] != own+int16(side) {
				if d < smoothing && w.of[i]>>1 == own>>1 {
					continue // a step of the edge
				}
				break
			}
			if d > gap && f.darkLine(i) {
				break // around the form
			}
			s.n[side][d]++
			s.cell[side][d] = i
			for c := range 3 {
				s.sum[side][d][c] += f.planes.raw[c][i]
			}
		}
	}
}

// fillTold gives places of a run that tell of no accent, small gaps that were closed, what the one
// before them tells, or else the first that does.
func fillTold(tells []told, r run) {
	n := len(tells)
	last := noCell
	for k := range r.count {
		if i := (r.from + k) % n; tells[i].cell != noCell {
			last = i
			break
		}
	}
	if last == noCell {
		return
	}
	for k := range r.count {
		if i := (r.from + k) % n; tells[i].cell != noCell {
			last = i
		} else {
			tells[i] = tells[last]
		}
	}
}

// meanOff returns the mean difference in lightness over a run.
func meanOff(tells []told, r run) float64 {
	sum := 0.0
	for k := range r.count {
		sum += tells[(r.from+k)%len(tells)].off
	}
	return sum / float64(r.count)
}
