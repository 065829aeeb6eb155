package families

import "app.tonedesk/analysis/internal/pool"

// noArea labels a cell that belongs to no area.
const noArea = -1

// How large an area is at least: to count as one before it grows, and to stay one; parts of
// the counted picture, but leastCells at least (found on drawn scenes; no source).
const (
	seedPart   = 0.0003
	areaPart   = 0.0007
	leastCells = 12
)

// familyAreas cuts the smoothed picture into areas of one colour, or of colours that run
// smoothly into each other.
type familyAreas struct {
	label []int32 // of each cell, an index into list, or noArea
	list  []familyArea
	edges []familyEdge
	// family is of each area the index of its local colour in Found.List, -1 for none: set by describe.
	family []int8

	parent, size []int32 // see joinCells
	queue        growQueue
}

// familyArea is one area.
type familyArea struct {
	moments     // of the cells that are not thin
	all     int // cells
	rim     int // cells at the frame; one in a corner counts twice
	outline int // pairs of cells around it, the frame's included: see measureOutlines

	ground bool // belongs to the background
	scale  bool // is a step of a scale: see markScales
	stair  bool // is a step of a scale of greys, which may not touch: see markStaircase
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
	f.cutSmooth()
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
	for _, side := range sidesOf(f.source.frame) {
		for y := side.Min.Y; y < side.Max.Y; y++ {
			for _, l := range f.areas.label[y*f.source.across+side.Min.X : y*f.source.across+side.Max.X] {
				if l != noArea {
					f.areas.list[l].rim++
				}
			}
		}
	}
}

// addCell adds a cell to an area.
func (f *Finder) addCell(a *familyArea, i int) {
	a.all++
	if p := &f.planes; p.thin[i] == 0 {
		a.addAt(&p.flat, i)
	}
}

// add adds all of another area.
func (a *familyArea) add(b *familyArea) {
	a.join(&b.moments)
	a.all += b.all
	a.ground = a.ground || b.ground
	a.rim += b.rim
}

// measureOutlines measures the areas' outlines.
func (a *familyAreas) measureOutlines() {
	for i := range a.list {
		a.list[i].outline = a.list[i].rim
	}
	for i := range a.edges {
		e := &a.edges[i]
		a.list[e.a].outline += e.length
		a.list[e.b].outline += e.length
	}
}

// apart returns the distance of two areas' colours in L*a*b*.
func (f *Finder) apart(i, k int32) float64 {
	return f.areas.list[i].apart(&f.areas.list[k].moments)
}

// edgesByArea lists the edges of each area.
func (a *familyAreas) edgesByArea() [][]int32 {
	around := make([][]int32, len(a.list))
	for i := range a.edges {
		for _, area := range [2]int32{a.edges[i].a, a.edges[i].b} {
			around[area] = append(around[area], int32(i))
		}
	}
	return around
}

// lighter returns two areas, the lighter first.
func (a *familyAreas) lighter(i, k int32) (light, shadow int32) {
	if a.list[i].mean().L < a.list[k].mean().L {
		return k, i
	}
	return i, k
}

// Neighbours are joined up to a distance of joinWithin in L*a*b*; grain adds joinNoise times
// its deviation (found on drawn scenes; no source).
const (
	joinWithin = 1.2
	joinNoise  = 0.3
)

// joinCells joins neighbours of nearly one colour, but for those that are thin.
func (f *Finder) joinCells() {
	a, w, n := &f.areas, f.source.across, f.source.across*f.source.down
	a.parent, a.size = pool.Resized(a.parent, n), pool.Resized(a.size, n)
	for i := range a.parent {
		a.parent[i], a.size[i] = int32(i), 1
	}
	limit := joinWithin + joinNoise*f.planes.noise
	most := int64(limit * limit * cellLab * cellLab)
	for i := range n {
		if (i+1)%w != 0 {
			f.link(i, i+1, most)
		}
		if i+w < n {
			f.link(i, i+w, most)
		}
	}
}

// link joins two cells unless they are further apart than most says.
func (f *Finder) link(i, k int, most int64) {
	p, left, a := &f.planes, f.source.left, &f.areas
	if p.thin[i]|p.thin[k]|left[i]|left[k] != 0 || p.away(i, k) > most {
		return
	}
	x, y := a.root(int32(i)), a.root(int32(k))
	if x == y {
		return
	}
	if x > y {
		x, y = y, x
	}
	a.parent[y] = x
	a.size[x] += a.size[y]
}

// root returns the cell that stands for all that are joined with cell i.
func (a *familyAreas) root(i int32) int32 {
	for a.parent[i] != i {
		a.parent[i] = a.parent[a.parent[i]]
		i = a.parent[i]
	}
	return i
}

// seedAreas numbers what is joined and large enough to grow.
func (f *Finder) seedAreas() {
	a := &f.areas
	a.label, a.list = pool.Resized(a.label, len(a.parent)), a.list[:0]
	for i := range a.label {
		a.label[i] = noArea
	}
	least := int32(max(leastCells, seedPart*float64(f.source.counted)))
	for i := range a.label {
		r := a.root(int32(i)) // the first of its cells
		if f.source.left[i] != 0 || a.size[r] < least {
			continue
		}
		if a.label[r] == noArea {
			a.label[r] = int32(len(a.list))
			a.list = append(a.list, familyArea{})
		}
		a.label[i] = a.label[r]
	}
}
