package analysis

import (
	"cmp"
	"math"
	"slices"
)

// Limits for a light and its shadow (found on drawn scenes; no source).
const (
	leastApart      = 4.0  // L* between the sides
	leastSoft       = 5.0  // L* between the sides of a smooth form
	leastSeparation = 0.78 // see moments.separation; a ramp has 0.75
	leastEdge       = 0.6  // of the common edge over the root of the smaller side
	mostEdge        = 6.0
	hueChroma       = 10.0 // C*ab from which on a hue counts
	mostTurn        = 75.0 // degrees of hab
)

// familyPair is two areas that are a light and its shadow.
type familyPair struct {
	light, shadow int32
	score         float64
	soft          bool // light is to be cut off shadow
}

// pairs finds which areas belong together as a light and its shadow: the likeliest first,
// each area in one pair.
func (f *FamilyFinder) pairs() []familyPair {
	a := &f.areas
	least := f.leastArea()
	var found []familyPair
	for i := range a.edges {
		e := &a.edges[i]
		light, shadow := e.a, e.b
		if a.list[light].mean()[0] < a.list[shadow].mean()[0] {
			light, shadow = shadow, light
		}
		p, q := &a.list[light], &a.list[shadow]
		if min(p.all, q.all) < least || p.ground || q.ground || 2*e.lined > e.length {
			continue
		}
		if score := likeness(p, q, e.length, leastApart); score > 0 {
			found = append(found, familyPair{light, shadow, score, false})
		}
	}
	cuts := f.softCuts(least)
	for i := range cuts {
		c := &cuts[i]
		if !c.ok || min(c.sides[0].all, c.sides[1].all) < least {
			continue
		}
		if score := likeness(&c.sides[1], &c.sides[0], c.edge, leastSoft); score > 0 {
			found = append(found, familyPair{int32(i), int32(i), score, true})
		}
	}
	slices.SortStableFunc(found, func(p, q familyPair) int { return cmp.Compare(q.score, p.score) })
	return f.cutSoft(matched(found, len(a.list)), cuts)
}

// cutSoft cuts the smooth areas among the pairs.
func (f *FamilyFinder) cutSoft(pairs []familyPair, cuts []softCut) []familyPair {
	for k := range pairs {
		if p := &pairs[k]; p.soft {
			p.light = f.cutArea(p.shadow, &cuts[p.shadow])
		}
	}
	return pairs
}

// leastArea is how many cells a side has at least.
func (f *FamilyFinder) leastArea() int {
	return max(leastCells, int(areaPart*float64(f.source.counted)))
}

// likeness says how much two areas with so long an edge look like a light and its shadow,
// at least so many L* apart; 0 for not at all.
func likeness(light, shadow *familyArea, edge int, apart float64) float64 {
	p, q := light.mean(), shadow.mean()
	if p[0]-q[0] < apart || light.cells() == 0 || shadow.cells() == 0 {
		return 0
	}
	if light.across() && shadow.across() { // layers of a background
		return 0
	}
	hue := hueScore(p, q)
	separation := light.colour.separation(&shadow.colour)
	ratio := float64(edge) * math.Pi / 4 / math.Sqrt(float64(min(light.all, shadow.all)))
	if hue == 0 || separation < leastSeparation || ratio < leastEdge || ratio > mostEdge {
		return 0
	}
	sizes := float64(min(light.all, shadow.all)) / float64(max(light.all, shadow.all))
	return hue * math.Pow(sizes, 0.2) * min(ratio, 1.5) * min(1, (separation-0.6)/0.3) * min(1, (p[0]-q[0])/10)
}

// hueScore says how well two colours agree in hue, 0 for not at all, 1 for fully.
func hueScore(p, q [3]float64) float64 {
	if min(math.Hypot(p[1], p[2]), math.Hypot(q[1], q[2])) >= hueChroma {
		turn := math.Abs(turnBetween(degrees(p[2], p[1]), degrees(q[2], q[1])))
		return max(0, 1-turn/mostTurn/2) * boolPart(turn <= mostTurn)
	}
	off := math.Hypot(p[1]-q[1], p[2]-q[2])
	return 1 / (1 + off*off/400)
}

func boolPart(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// alike reports whether two areas, the lighter first, may be one local colour's light and
// shadow by their colours alone.
func (f *FamilyFinder) alike(light, shadow int32) bool {
	p, q := f.areas.list[light].mean(), f.areas.list[shadow].mean()
	return p[0]-q[0] >= leastApart && hueScore(p, q) > 0
}
