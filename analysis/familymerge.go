package analysis

import "math"

// mergeWeight is the weight of length against colour in merging: two areas are joined where
// keeping them apart explains less squared distance in L*a*b*, a cell of edge.
const mergeWeight = 150.0

// touch is an entry of the queue of edges: stale where the edge has changed since.
type touch struct {
	cost    float64
	edge    int32
	version int32
}

func (t touch) before(o touch) bool {
	if t.cost != o.cost {
		return t.cost < o.cost
	}
	return t.edge < o.edge
}

// areaMerger joins areas, the least different first (region merging after Koepfler, Lopez,
// Morel, 1994).
type areaMerger struct {
	areas   *familyAreas
	visible float64
	noise   float64
	least   int // cells
	into    []int32
	alien   []bool    // joined, but of another colour
	of      [][]int32 // edges of each area
	version []int32   // of each edge; gone edges have length 0
	heap    []touch
	seen    []int32 // edge by other area, while joining
}

// cost is under 1 for areas that are to be joined because their edge doesn't show, and over
// it, but finite, where one of them is too small.
func (m *areaMerger) cost(e *familyEdge) float64 {
	p, q := &m.areas.list[e.a], &m.areas.list[e.b]
	apart := p.colour.apart(&q.colour)
	both := float64(p.cells()) * float64(q.cells()) / max(float64(p.cells()+q.cells()), 1)
	energy := both * apart * apart / float64(e.length)
	lined := 2*e.lined > e.length
	c := min(math.Sqrt(energy/mergeWeight), e.contrast()/m.visible)
	if lined { // a fold that is drawn in a side, if both are of one colour and no ground
		c = apart / (foldWithin + m.noise)
		if p.ground || q.ground {
			c = 1
		}
	}
	if c < 1 {
		return c
	}
	switch {
	case min(p.all, q.all) >= m.least:
		return math.Inf(1)
	case lined:
		return 1e6 + energy
	}
	return 1 + energy
}

func (m *areaMerger) push(edge int32) {
	c := m.cost(&m.areas.edges[edge])
	if math.IsInf(c, 1) {
		return
	}
	m.heap = append(m.heap, touch{c, edge, m.version[edge]})
	for i := len(m.heap) - 1; i > 0; {
		up := (i - 1) / 2
		if !m.heap[i].before(m.heap[up]) {
			break
		}
		m.heap[i], m.heap[up] = m.heap[up], m.heap[i]
		i = up
	}
}

func (m *areaMerger) pop() touch {
	top := m.heap[0]
	last := len(m.heap) - 1
	m.heap[0] = m.heap[last]
	m.heap = m.heap[:last]
	for i := 0; ; {
		k := 2*i + 1
		if k >= last {
			break
		}
		if k+1 < last && m.heap[k+1].before(m.heap[k]) {
			k++
		}
		if !m.heap[k].before(m.heap[i]) {
			break
		}
		m.heap[i], m.heap[k] = m.heap[k], m.heap[i]
		i = k
	}
	return top
}

func (m *areaMerger) run() {
	a := m.areas
	n := len(a.list)
	m.into, m.of = make([]int32, n), make([][]int32, n)
	m.alien = make([]bool, n)
	m.version, m.seen = make([]int32, len(a.edges)), make([]int32, n)
	for i := range m.into {
		m.into[i], m.seen[i] = int32(i), -1
	}
	for i := range a.edges {
		e := &a.edges[i]
		m.of[e.a], m.of[e.b] = append(m.of[e.a], int32(i)), append(m.of[e.b], int32(i))
	}
	for i := range a.edges {
		m.push(int32(i))
	}
	for len(m.heap) > 0 {
		t := m.pop()
		if t.version == m.version[t.edge] {
			m.join(t.edge, t.cost)
		}
	}
}

// foldWithin is the distance in L*a*b* up to which areas on both sides of a line are one.
const foldWithin = 2.0

// alienFrom is the distance in L*a*b* from which on a small area is no part of the side that
// takes it in: an eye, a window, a pattern.
const alienFrom = 5.0

// join joins the areas of an edge: the smaller goes into the other.
func (m *areaMerger) join(edge int32, cost float64) {
	a := m.areas
	keep, gone := a.edges[edge].a, a.edges[edge].b
	if a.list[keep].all < a.list[gone].all {
		keep, gone = gone, keep
	}
	if cost >= 1 && a.list[keep].colour.apart(&a.list[gone].colour) > alienFrom {
		m.alien[gone] = true
		a.list[gone].colour = moments{}
	}
	a.list[keep].add(&a.list[gone])
	a.list[gone] = familyArea{}
	m.into[gone] = keep
	m.drop(edge)
	kept := m.of[keep][:0]
	for _, k := range m.of[keep] {
		if e := &a.edges[k]; e.length > 0 {
			m.seen[e.a+e.b-keep] = k
			kept = append(kept, k)
		}
	}
	for _, k := range m.of[gone] {
		e := &a.edges[k]
		if e.length == 0 {
			continue
		}
		other := e.a + e.b - gone
		if same := m.seen[other]; same >= 0 {
			into := &a.edges[same]
			into.add(e, (e.a == gone) != (into.a == keep))
			m.drop(k)
			continue
		}
		if e.a == gone {
			e.a = keep
		} else {
			e.b = keep
		}
		m.seen[other] = k
		kept = append(kept, k)
	}
	m.of[keep], m.of[gone] = kept, nil
	for _, k := range kept {
		e := &a.edges[k]
		m.seen[e.a+e.b-keep] = -1
		m.version[k]++
		m.push(k)
	}
}

// drop takes an edge out of use.
func (m *areaMerger) drop(edge int32) {
	m.areas.edges[edge].length = 0
	m.version[edge]++
}

// mergeAreas joins areas whose edge does not show, and what is too small with its neighbour.
func (f *FamilyFinder) mergeAreas() {
	a := &f.areas
	m := areaMerger{
		areas: a, visible: edgeVisible + 0.5*f.planes.noise, noise: f.planes.noise, least: f.leastArea(),
	}
	m.run()
	for i, l := range a.label {
		if l == noArea {
			continue
		}
		for m.into[l] != l {
			if m.alien[l] {
				f.planes.thin[i] |= alienCell
			}
			l = m.into[l]
		}
		a.label[i] = l
	}
}
