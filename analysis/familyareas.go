package analysis

import "math"

// noArea labels a cell that belongs to no area.
const noArea = -1

// familyAreas cuts the smoothed picture into areas of one colour.
type familyAreas struct {
	label  []int32 // of each cell, an index into list, or noArea
	parent []int32
	size   []int32
	list   []familyArea
	edges  []familyEdge
	ragged float64 // see raggedness
	queue  [growSteps][]growth
}

// familyArea is one area.
type familyArea struct {
	colour moments // of the cells that are not thin
	all    int     // cells
	rim    [4]int  // cells at the frame's top, right, foot, left
	ground bool    // belongs to the background
	reach  [4]bool // sides of the frame that its colour touches
	scale  bool    // is a step of a scale

	outline int // pairs of cells around it: see measureOutlines
}

// cells returns how many cells are not thin.
func (a *familyArea) cells() int { return int(a.colour.n) }

func (a *familyArea) mean() [3]float64 { return a.colour.mean() }

func (a *familyArea) add(b *familyArea) {
	a.colour.join(&b.colour)
	a.all += b.all
	a.ground = a.ground || b.ground
	for i := range a.rim {
		a.rim[i] += b.rim[i]
	}
}

// Limits of the cutting (found on drawn scenes; no source).
const (
	joinWithin  = 1.2   // distance in L*a*b* up to which neighbours are joined
	seedPart    = 0.001 // part of the picture from which a joined area counts as one
	growSteps   = 256
	growStep    = 0.5 // L*a*b* a step of the queue
	alienStep   = 24  // from here on a cell is too far in colour to count in the area
	areaPart    = 0.003
	leastCells  = 12
	edgeVisible = 2.2
)

func (f *FamilyFinder) segment() {
	f.join()
	f.seed()
	f.grow()
	f.remeasure()
	f.mergeAreas()
	f.remeasure()
	f.dissolveBridges()
}

// remeasure measures areas and edges anew after labels changed.
func (f *FamilyFinder) remeasure() {
	f.measureAreas()
	f.findEdges()
	f.markGround()
}

// find returns the root of a cell's area.
func (a *familyAreas) find(i int32) int32 {
	for a.parent[i] != i {
		a.parent[i] = a.parent[a.parent[i]]
		i = a.parent[i]
	}
	return i
}

// join joins neighbours of nearly one colour.
func (f *FamilyFinder) join() {
	s, p, a := &f.source, &f.planes, &f.areas
	w, n := s.across, s.across*s.down
	a.parent, a.size, a.label = resized(a.parent, n), resized(a.size, n), resized(a.label, n)
	for i := range a.parent {
		a.parent[i], a.size[i] = int32(i), 1
	}
	limit := joinWithin + 0.3*p.noise
	most := int64(limit * limit * cellUnitLab * cellUnitLab)
	link := func(i, k int) {
		if p.thin[i]|p.thin[k]|s.left[i]|s.left[k] != 0 || p.away(i, k) > most {
			return
		}
		x, y := a.find(int32(i)), a.find(int32(k))
		if x == y {
			return
		}
		if x > y {
			x, y = y, x
		}
		a.parent[y] = x
		a.size[x] += a.size[y]
	}
	for i := range n {
		if (i+1)%w != 0 {
			link(i, i+1)
		}
		if i+w < n {
			link(i, i+w)
		}
	}
}

// away is the squared distance of two smoothed cells, in cellUnitLab.
func (p *familyPlanes) away(i, k int) int64 {
	l, a, b := int64(p.flat[0][i]-p.flat[0][k]), int64(p.flat[1][i]-p.flat[1][k]), int64(p.flat[2][i]-p.flat[2][k])
	return l*l + a*a + b*b
}

// seed numbers the areas that are large enough to grow.
func (f *FamilyFinder) seed() {
	s, a := &f.source, &f.areas
	least := int32(max(leastCells, seedPart*float64(s.counted)))
	a.list = a.list[:0]
	for i := range a.label {
		a.label[i] = noArea
	}
	for i := range a.label {
		r := a.find(int32(i))
		if s.left[i] != 0 || a.size[r] < least {
			continue
		}
		if a.label[r] == noArea {
			a.label[r] = int32(len(a.list))
			a.list = append(a.list, familyArea{})
		}
		a.label[i] = a.label[r]
	}
}

// growth is a cell waiting to be taken by an area.
type growth struct{ cell, area int32 }

// grow lets the areas grow into the cells between them, the nearest colour first (seeded
// region growing: Adams, Bischof, 1994).
func (f *FamilyFinder) grow() {
	s, p, a := &f.source, &f.planes, &f.areas
	w, h := s.across, s.down
	f.measureAreas()
	means := make([][3]float64, len(a.list))
	for i := range a.list {
		means[i] = a.list[i].mean()
	}
	for i := range a.queue {
		a.queue[i] = a.queue[i][:0]
	}
	push := func(cell int, area int32) {
		m := &means[area]
		d := 0.0
		for c := range m {
			v := float64(p.flat[c][cell])/cellUnitLab - m[c]
			d += v * v
		}
		step := min(int(math.Sqrt(d)/growStep), growSteps-1)
		a.queue[step] = append(a.queue[step], growth{int32(cell), area})
	}
	around := func(i int, area int32) {
		x, y := i%w, i/w
		for k, ok := range [4]bool{x > 0, x+1 < w, y > 0, y+1 < h} {
			j := i + [4]int{-1, 1, -w, w}[k]
			if ok && a.label[j] == noArea && s.left[j] == 0 {
				push(j, area)
			}
		}
	}
	for i, l := range a.label {
		if l != noArea {
			around(i, l)
		}
	}
	for step := 0; step < growSteps; {
		q := a.queue[step]
		if len(q) == 0 {
			step++
			continue
		}
		a.queue[step] = nil
		lowest := step
		for _, g := range q {
			if a.label[g.cell] != noArea {
				continue
			}
			a.label[g.cell] = g.area
			if step >= alienStep {
				p.thin[g.cell] |= alienCell
			}
			around(int(g.cell), g.area)
		}
		for k := range step {
			if len(a.queue[k]) > 0 {
				lowest = k
				break
			}
		}
		step = lowest
	}
}

// measureAreas adds up the areas from the cells that are not thin.
func (f *FamilyFinder) measureAreas() {
	p, a := &f.planes, &f.areas
	for i := range a.list {
		a.list[i] = familyArea{}
	}
	for i, l := range a.label {
		if l == noArea {
			continue
		}
		r := &a.list[l]
		r.all++
		for k, at := range f.rimAt(i) {
			if at {
				r.rim[k]++
			}
		}
		if p.thin[i] == 0 {
			r.colour.add(p.flat[0][i], p.flat[1][i], p.flat[2][i])
		}
	}
}

// rimAt says at which sides of the frame a cell lies: top, right, foot, left.
func (f *FamilyFinder) rimAt(i int) [4]bool {
	s := &f.source
	x, y := i%s.across, i/s.across
	return [4]bool{y == s.frame.Min.Y, x == s.frame.Max.X-1, y == s.frame.Max.Y-1, x == s.frame.Min.X}
}

// measureOutlines measures the areas' outlines, the frame included.
func (a *familyAreas) measureOutlines() {
	for i := range a.list {
		a.list[i].outline = a.list[i].rimCells()
	}
	for i := range a.edges {
		e := &a.edges[i]
		a.list[e.a].outline += e.length
		a.list[e.b].outline += e.length
	}
}
