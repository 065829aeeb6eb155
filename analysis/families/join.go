package families

import "app.tonedesk/analysis/internal/pool"

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
