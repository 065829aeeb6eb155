package analysis

import (
	"cmp"
	"math"
	"slices"
)

// familyPair is two areas that may be a light and its shadow.
type familyPair struct {
	light, shadow int32
	score         float64
	edge          int
	share         float64
}

// background reports whether an area belongs to the background.
func (f *FamilyFinder) background(area int32) bool { return f.areas.list[area].ground }

// pairs finds which areas belong together as a light and its shadow.
func (f *FamilyFinder) pairs() []familyPair {
	a, s := &f.areas, &f.source
	least := max(leastCells, int(areaPart*float64(s.counted)))
	var found []familyPair
	for i := range a.edges {
		e := &a.edges[i]
		l, d := e.a, e.b
		if a.list[l].mean()[0] < a.list[d].mean()[0] {
			l, d = d, l
		}
		if min(a.list[l].all, a.list[d].all) < least || f.background(l) || f.background(d) {
			continue
		}
		if float64(e.lined) > 0.5*float64(e.length) {
			continue
		}
		score := f.likeness(l, d, e)
		if score > 0 {
			found = append(found, familyPair{light: l, shadow: d, score: score, edge: i})
		}
	}
	slices.SortStableFunc(found, func(p, q familyPair) int { return cmp.Compare(q.score, p.score) })
	taken := map[int32]bool{}
	kept := found[:0]
	for _, p := range found {
		if taken[p.light] || taken[p.shadow] {
			continue
		}
		taken[p.light], taken[p.shadow] = true, true
		kept = append(kept, p)
	}
	return kept
}

// alike reports whether two areas, the lighter first, may be one local colour's light and
// shadow by their colours alone.
func (f *FamilyFinder) alike(light, shadow int32) bool {
	p, q := f.areas.list[light].mean(), f.areas.list[shadow].mean()
	return p[0]-q[0] >= leastApart && hueScore(p, q) > 0
}

// hueScore says how well two colours agree in hue, 0 for not at all, 1 for fully.
func hueScore(p, q [3]float64) float64 {
	cp, cq := math.Hypot(p[1], p[2]), math.Hypot(q[1], q[2])
	if cp >= 10 && cq >= 10 {
		turn := math.Abs(turnBetween(degrees(p[2], p[1]), degrees(q[2], q[1])))
		if turn > 75 {
			return 0
		}
		return 1 - turn/150
	}
	off := math.Hypot(p[1]-q[1], p[2]-q[2])
	return 1 / (1 + off*off/400)
}

// likeness says how much two areas look like a light and its shadow; 0 for not at all.
func (f *FamilyFinder) likeness(l, d int32, e *familyEdge) float64 {
	a := &f.areas
	if !f.alike(l, d) {
		return 0
	}
	length := float64(e.length) * math.Pi / 4
	ratio := length / math.Sqrt(float64(min(a.list[l].all, a.list[d].all)))
	if ratio < 0.6 {
		return 0
	}
	return hueScore(a.list[l].mean(), a.list[d].mean()) * min(ratio, 2)
}
