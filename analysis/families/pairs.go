package families

import (
	"cmp"
	"math"
	"slices"

	"app.tonedesk/analysis/colour"
)

// Limits for a light and its shadow (found on drawn scenes; no source).
const (
	leastApart   = 4.0  // L* between the sides
	leastSoft    = 5.0  // L* between the sides of a smooth form
	mostApart    = 60.0 // L* between the sides
	leastEdge    = 0.6  // of the common edge over the root of the smaller side
	mostEdge     = 6.0
	hueChroma    = 10.0 // C*ab from which on a hue counts
	mostTurn     = 65.0 // degrees of Oklch's hue
	enclosedPart = 0.95 // of a side's outline on the other side, from which on it is enclosed
	outlinePart  = 0.08 // of a smooth form's outline that each side has
	detailPart   = 0.15 // of the other side, up to which what is enclosed is a detail
)

// familyPair is two areas that are a light and its shadow.
type familyPair struct {
	light, shadow int32 // the same where the light is still to be cut off the shadow
	score         float64
}

// pairs finds which areas belong together as a light and its shadow, each area in one pair.
func (f *Finder) pairs() []familyPair {
	f.areas.measureOutlines()
	f.areas.ragged = f.raggedness()
	f.markScales()
	found := f.edgePairs()
	cuts := f.softCuts(f.leastArea())
	found = append(found, f.softPairs(cuts)...)
	slices.SortStableFunc(found, func(p, q familyPair) int { return cmp.Compare(q.score, p.score) })
	kept := matched(found, len(f.areas.list))
	for k := range kept {
		if p := &kept[k]; p.light == p.shadow {
			p.light = f.cutArea(p.shadow, &cuts[p.shadow])
		}
	}
	return kept
}

// edgePairs lists the pairs of areas that touch.
func (f *Finder) edgePairs() (found []familyPair) {
	a, least := &f.areas, f.leastArea()
	for i := range a.edges {
		e := &a.edges[i]
		light, shadow := a.lighter(e.a, e.b)
		p, q := &a.list[light], &a.list[shadow]
		if min(p.all, q.all) < least || p.ground || q.ground || p.scale && q.scale || e.isLined() {
			continue
		}
		ragged := max(jaggedness(p.outline+q.outline-2*e.length, p.all+q.all), a.ragged)
		needs := edgeNeeds(ragged)
		if f.sharp(e) {
			needs = min(needs, sharpNeeds(ragged))
		}
		if score := likeness(p, q, e.length, needs); score > 0 {
			found = append(found, familyPair{light, shadow, score})
		}
	}
	return found
}

// softPairs lists the areas that may be cut into a light and its shadow.
func (f *Finder) softPairs(cuts []softCut) (found []familyPair) {
	least := f.leastArea()
	for i := range cuts {
		c, r := &cuts[i], &f.areas.list[i]
		shadow, light := &c.sides[0], &c.sides[1]
		if !c.ok || min(shadow.all, light.all) < least || light.mean().L-shadow.mean().L < leastSoft {
			continue
		}
		reach := shadow.outline + shadow.rimCells() + light.outline + light.rimCells()
		if float64(min(shadow.outline+shadow.rimCells(), light.outline+light.rimCells())) < outlinePart*float64(reach) {
			continue // one encloses the other: a glow
		}
		if score := likeness(light, shadow, c.edge, softNeeds(max(jaggedness(r.outline, r.all), f.areas.ragged))); score > 0 {
			found = append(found, familyPair{int32(i), int32(i), score})
		}
	}
	return found
}

// jaggedness is the square of an outline over the area, 1 for a square and for a disc.
func jaggedness(outline, area int) float64 {
	return float64(outline) * float64(outline) / 16 / float64(max(area, 1))
}

// raggedness returns how ragged a picture's areas are at least to be taken for: one less
// than their mean by cells. A painted form has a clear outline; where most areas have none,
// as in a picture of noise, shapes are chance.
func (f *Finder) raggedness() float64 {
	sum, cells := 0.0, 0.0
	for i := range f.areas.list {
		if r := &f.areas.list[i]; !r.ground && r.all >= f.leastArea() {
			sum += jaggedness(r.outline, r.all) * float64(r.all)
			cells += float64(r.all)
		}
	}
	return sum/max(cells, 1) - 1
}

// edgeNeeds returns the least separation of two areas with an edge between them, by how
// ragged they are together.
func edgeNeeds(ragged float64) float64 { return min(0.97, 0.85+0.07*max(0, ragged-1.5)) }

// sharpStep is the part of the way from one side to the other that lies in a sharp edge, at
// least.
const sharpStep = 0.7

// sharpNeeds returns the same of two areas with a sharp edge all along: each may run from
// light to dark by itself, as two shaded walls of a house do.
func sharpNeeds(ragged float64) float64 { return 0.5 + 0.15*max(0, ragged-1.5) }

// softNeeds returns the least separation of the two sides of a smooth area, by how ragged it
// is; a ramp has 0.75, and a transition that takes up the whole form 0.80.
func softNeeds(ragged float64) float64 { return min(0.97, 0.80+0.08*max(0, ragged-1.8)) }

// likeness says how much two areas with so long an edge look like a light and its shadow
// whose separation is at least needs; 0 for not at all.
func likeness(light, shadow *familyArea, edge int, needs float64) float64 {
	p, q := light.mean(), shadow.mean()
	apart := p.L - q.L
	if apart < leastApart || apart > mostApart || light.n == 0 || shadow.n == 0 {
		return 0
	}
	if light.across() && shadow.rimCells() > 0 || shadow.across() && light.rimCells() > 0 { // layers of a background
		return 0
	}
	smaller, larger := light, shadow
	if smaller.all > larger.all {
		smaller, larger = larger, smaller
	}
	sizes := float64(smaller.all) / float64(larger.all)
	if sizes < detailPart && float64(edge) > enclosedPart*float64(smaller.outline) {
		return 0
	}
	hue, separation := hueScore(p, q), light.separation(&shadow.moments)
	ratio := float64(edge) * math.Pi / 4 / math.Sqrt(float64(smaller.all))
	if hue == 0 || separation < needs || ratio < leastEdge || ratio > mostEdge {
		return 0
	}
	return hue * math.Pow(sizes, 0.2) * min(ratio, 1.5) * min(1, max(0.3, (separation-0.6)/0.3)) * min(1, apart/10)
}

// hueScore says how well two colours agree in hue, 0 for not at all, 1 for fully.
func hueScore(p, q colour.Lab) float64 {
	if min(p.Chroma(), q.Chroma()) >= hueChroma {
		turn := math.Abs(TurnBetween(p.Oklab().Hue(), q.Oklab().Hue()))
		if turn > mostTurn {
			return 0
		}
		return 1 - turn/mostTurn/2
	}
	off := math.Hypot(p.A-q.A, p.B-q.B)
	return 1 / (1 + off*off/400)
}

// alike reports whether two areas, the lighter first, may be one local colour's light and
// shadow by their colours alone.
func (f *Finder) alike(light, shadow int32) bool {
	p, q := f.areas.list[light].mean(), f.areas.list[shadow].mean()
	return p.L-q.L >= leastApart && hueScore(p, q) > 0
}

// matched takes from pairs, the likeliest first, so that each of so many areas is in one at
// most and the sum of the squared scores is large: greedily, and then two for one wherever
// that is better.
func matched(pairs []familyPair, areas int) []familyPair {
	m := matching{pairs, make([]int32, areas)}
	for k, p := range pairs {
		if m.of[p.light] == 0 && m.of[p.shadow] == 0 {
			m.set(k, int32(k+1))
		}
	}
	for m.improve() {
	}
	var kept []familyPair
	for k, p := range pairs {
		if m.holds(k) {
			kept = append(kept, p)
		}
	}
	return kept
}

// matching is a choice of pairs.
type matching struct {
	pairs []familyPair
	of    []int32 // 1 + the pair that an area is in, 0 for none
}

// set notes which pair the areas of pair k are in.
func (m *matching) set(k int, pair int32) {
	m.of[m.pairs[k].light], m.of[m.pairs[k].shadow] = pair, pair
}

func (m *matching) holds(k int) bool { return m.of[m.pairs[k].light] == int32(k+1) }

// improve puts two pairs in the place of one, if it finds where that is better. Each time
// the sum grows, so that it comes to an end.
func (m *matching) improve() bool {
	for k := range m.pairs {
		if !m.holds(k) {
			continue
		}
		p := m.pairs[k]
		first, second := m.instead(k, p.light, p.shadow), m.instead(k, p.shadow, p.light)
		for _, a := range first {
			for _, b := range second {
				if m.disjoint(a, b) && square(m.pairs[a].score)+square(m.pairs[b].score) > square(p.score) {
					m.set(k, 0)
					m.set(a, int32(a+1))
					m.set(b, int32(b+1))
					return true
				}
			}
		}
	}
	return false
}

// instead lists the pairs that would be free for area if pair k were not taken, without the
// other area of k.
func (m *matching) instead(k int, area, other int32) (list []int) {
	for i, p := range m.pairs {
		if p.light != area && p.shadow != area || p.light == other || p.shadow == other {
			continue
		}
		free := func(a int32) bool { return m.of[a] == 0 || m.of[a] == int32(k+1) }
		if free(p.light) && free(p.shadow) {
			list = append(list, i)
		}
	}
	return list
}

func (m *matching) disjoint(a, b int) bool {
	p, q := m.pairs[a], m.pairs[b]
	return p.light != q.light && p.light != q.shadow && p.shadow != q.light && p.shadow != q.shadow
}

func square(v float64) float64 { return v * v }
