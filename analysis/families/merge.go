package families

import (
	"container/heap"
	"math"
)

// Areas are joined where keeping them apart explains less than mergeWeight squared units of
// L*a*b* for each pair of cells along their edge, or the edge shows less than mergeContrast,
// but never over a line. Grain adds mergeNoise of its deviation to mergeContrast. A small
// area that must go somewhere, but is further from where it goes than detailFrom, is a
// detail (found on drawn scenes; no source).
const (
	mergeWeight   = 150.0
	mergeContrast = 2.2
	mergeNoise    = 0.5
	detailFrom    = 5.0
)

// mergeAreas joins areas whose edge does not show, and what is too small with a neighbour.
func (f *Finder) mergeAreas() {
	a, n := &f.areas, len(f.areas.list)
	m := areaMerger{
		areas: a, noise: f.planes.noise, least: f.leastArea(), of: a.edgesByArea(),
		into: make([]int32, n), detail: make([]bool, n), seen: make([]int32, n), version: make([]int32, len(a.edges)),
	}
	m.run()
	for i, l := range a.label {
		if l == noArea {
			continue
		}
		for ; m.into[l] != l; l = m.into[l] {
			if m.detail[l] {
				f.planes.thin[i] |= alienCell
			}
		}
		a.label[i] = l
	}
}

// areaMerger joins areas, the least different first (MERGE).
type areaMerger struct {
	areas *familyAreas
	noise float64
	least int // cells of an area

	into    []int32   // where each area went, itself while it is there
	detail  []bool    // went where it is only a detail
	of      [][]int32 // edges of each area
	version []int32   // of each edge, counted up where it changes
	queue   touchQueue
	seen    []int32 // while joining: edge by other area, -1 for none
}

func (m *areaMerger) run() {
	for i := range m.into {
		m.into[i], m.seen[i] = int32(i), -1
	}
	for i := range m.areas.edges {
		m.touch(int32(i))
	}
	for len(m.queue) > 0 {
		t := heap.Pop(&m.queue).(touch)
		if t.version == m.version[t.edge] {
			m.join(t.edge, t.cost)
		}
	}
}

// touch lets an edge wait to be joined, if it may be.
func (m *areaMerger) touch(edge int32) {
	if cost := m.cost(&m.areas.edges[edge]); !math.IsInf(cost, 1) {
		heap.Push(&m.queue, touch{cost, edge, m.version[edge]})
	}
}

// overLine is added to the cost of what is too small and can only go over a line.
const overLine = 1e6

// cost is under 1 for areas that are to be joined because their edge doesn't show, at least
// 1 where one of them is too small, and infinite for all others.
func (m *areaMerger) cost(e *familyEdge) float64 {
	p, q := &m.areas.list[e.a], &m.areas.list[e.b]
	apart := p.apart(&q.moments)
	both := float64(p.n) * float64(q.n) / max(float64(p.n+q.n), 1)
	energy := both * apart * apart / float64(e.length)
	cost := min(math.Sqrt(energy/mergeWeight), e.contrast()/(mergeContrast+mergeNoise*m.noise))
	if e.isLined() {
		cost = math.Inf(1)
	}
	switch {
	case cost < 1:
		return cost
	case min(p.all, q.all) >= m.least:
		return math.Inf(1)
	case e.isLined():
		return overLine + energy
	}
	return 1 + energy
}

// join joins the areas of an edge: the smaller goes into the other.
func (m *areaMerger) join(edge int32, cost float64) {
	a := m.areas
	keep, gone := a.edges[edge].a, a.edges[edge].b
	if a.list[keep].all < a.list[gone].all {
		keep, gone = gone, keep
	}
	if cost >= 1 && a.list[keep].apart(&a.list[gone].moments) > detailFrom {
		m.detail[gone] = true
		a.list[gone].moments = moments{}
	}
	a.list[keep].add(&a.list[gone])
	a.list[gone] = familyArea{}
	m.into[gone] = keep
	m.drop(edge)
	kept := m.edgesOf(keep)
	for _, k := range kept {
		m.seen[a.edges[k].other(keep)] = k
	}
	for _, k := range m.edgesOf(gone) {
		if m.move(k, gone, keep) {
			kept = append(kept, k)
		}
	}
	m.of[keep], m.of[gone] = kept, nil
	for _, k := range kept {
		m.seen[a.edges[k].other(keep)] = -1
		m.version[k]++
		m.touch(k)
	}
}

// edgesOf returns the edges that an area still has.
func (m *areaMerger) edgesOf(area int32) []int32 {
	kept := m.of[area][:0]
	for _, k := range m.of[area] {
		if m.areas.edges[k].length > 0 {
			kept = append(kept, k)
		}
	}
	return kept
}

// move gives edge k of area gone to area keep. It returns false if keep had an edge with the
// same area, which then takes it in.
func (m *areaMerger) move(k, gone, keep int32) bool {
	e := &m.areas.edges[k]
	other := e.other(gone)
	if same := m.seen[other]; same >= 0 {
		into := &m.areas.edges[same]
		into.add(e, (e.a == gone) != (into.a == keep))
		m.drop(k)
		return false
	}
	if e.a == gone {
		e.a = keep
	} else {
		e.b = keep
	}
	m.seen[other] = k
	return true
}

// drop takes an edge out of use.
func (m *areaMerger) drop(edge int32) {
	m.areas.edges[edge].length = 0
	m.version[edge]++
}

// touch is an edge that waits to be joined; it is out of date if the edge has changed since.
type touch struct {
	cost    float64
	edge    int32
	version int32
}

// touchQueue is a heap: the least cost first, of equal costs the first edge.
type touchQueue []touch

func (q touchQueue) Len() int      { return len(q) }
func (q touchQueue) Swap(i, k int) { q[i], q[k] = q[k], q[i] }
func (q touchQueue) Less(i, k int) bool {
	return q[i].cost < q[k].cost || q[i].cost == q[k].cost && q[i].edge < q[k].edge
}
func (q *touchQueue) Push(t any) { *q = append(*q, t.(touch)) }
func (q *touchQueue) Pop() any {
	last := len(*q) - 1
	t := (*q)[last]
	*q = (*q)[:last]
	return t
}
