package families

// noArea labels a cell that belongs to no area.
const noArea = -1

// How large an area is at least: to count as one before it grows, and to stay one; parts of
// the counted picture, but leastCells at least (found on drawn scenes; no source).
const (
	seedPart   = 0.001
	areaPart   = 0.003
	leastCells = 12
)

// familyAreas cuts the smoothed picture into areas of one colour, or of colours that run
// smoothly into each other.
type familyAreas struct {
	label  []int32 // of each cell, an index into list, or noArea
	list   []familyArea
	edges  []familyEdge
	ragged float64 // see raggedness

	parent, size []int32 // see joinCells
	queue        growQueue
}

// familyArea is one area.
type familyArea struct {
	colour  moments // of the cells that are not thin
	all     int     // cells
	rim     [4]int  // cells at the frame's top, right, foot, left
	outline int     // pairs of cells around it, the frame's included: see measureOutlines

	ground bool    // belongs to the background
	reach  [4]bool // sides of the frame that its colour touches: see markGround
	scale  bool    // is a step of a scale: see markScales
}

// segment cuts the picture into areas.
func (f *Finder) segment() {
	f.joinCells()
	f.seedAreas()
	f.growAreas()
	f.remeasure()
	f.mergeAreas()
	f.remeasure()
	f.dissolveBridges()
}

// remeasure measures areas and edges anew after labels changed.
func (f *Finder) remeasure() {
	f.measureAreas()
	f.findEdges()
	f.markGround()
}

// leastArea returns how many cells a side has at least.
func (f *Finder) leastArea() int {
	return max(leastCells, int(areaPart*float64(f.source.counted)))
}

// measureAreas adds up the areas from their cells.
func (f *Finder) measureAreas() {
	clear(f.areas.list)
	for i, l := range f.areas.label {
		if l != noArea {
			f.addCell(&f.areas.list[l], i)
		}
	}
}

// addCell adds a cell to an area.
func (f *Finder) addCell(a *familyArea, i int) {
	s, p := &f.source, &f.planes
	a.all++
	x, y := i%s.across, i/s.across
	for side, at := range [4]bool{y == s.frame.Min.Y, x == s.frame.Max.X-1, y == s.frame.Max.Y-1, x == s.frame.Min.X} {
		if at {
			a.rim[side]++
		}
	}
	if p.thin[i] == 0 {
		a.colour.add(p.flat[0][i], p.flat[1][i], p.flat[2][i])
	}
}

// add adds all of another area.
func (a *familyArea) add(b *familyArea) {
	a.colour.join(&b.colour)
	a.all += b.all
	a.ground = a.ground || b.ground
	for side := range a.rim {
		a.rim[side] += b.rim[side]
	}
}

// cells returns how many cells are not thin.
func (a *familyArea) cells() int { return int(a.colour.n) }

// mean returns the area's mean L*, a* and b*.
func (a *familyArea) mean() [3]float64 { return a.colour.mean() }

// rimCells returns how many cells lie at the frame; one in a corner counts twice.
func (a *familyArea) rimCells() int { return a.rim[0] + a.rim[1] + a.rim[2] + a.rim[3] }

// across reports whether an area, or its colour in pieces, runs from one side of the frame
// to the opposite one.
func (a *familyArea) across() bool {
	at := func(side int) bool { return a.rim[side] > 0 || a.reach[side] }
	return at(0) && at(2) || at(1) && at(3)
}

// measureOutlines measures the areas' outlines.
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

// apart returns the distance of two areas' colours in L*a*b*.
func (f *Finder) apart(i, k int32) float64 {
	return f.areas.list[i].colour.apart(&f.areas.list[k].colour)
}
