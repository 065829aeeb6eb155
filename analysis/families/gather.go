package families

import (
	"cmp"
	"slices"
)

// gathered is a family in the making: which areas make its sides.
type gathered struct {
	light, shadow []int32
	first         familyPair // its largest
}

// How near in L*a*b* colours are to be one side of one local colour: at once, of pieces that
// touch, in part of the way between the sides (found on drawn scenes; no source).
const (
	oneLocal    = 4.0
	pieceWithin = 5.0
	piecePart   = 0.35
)

// gather turns pairs into families, the largest first: it joins pairs of one local colour,
// and adds what is left over beside them of nearly the colour of one side.
func (f *Finder) gather(pairs []familyPair) []gathered {
	a := &f.areas
	size := func(p familyPair) int { return a.list[p.light].all + a.list[p.shadow].all }
	slices.SortStableFunc(pairs, func(p, q familyPair) int { return cmp.Compare(size(q), size(p)) })
	owner := make([]int32, len(a.list)) // 1 + family, 0 for none
	var families []gathered
	for _, p := range pairs {
		if f.turnedRound(families, owner, p) {
			continue
		}
		k := slices.IndexFunc(families, func(g gathered) bool {
			return f.apart(p.light, g.first.light) <= oneLocal && f.apart(p.shadow, g.first.shadow) <= oneLocal
		})
		if k < 0 {
			k = len(families)
			families = append(families, gathered{first: p})
		}
		g := &families[k]
		g.light, g.shadow = append(g.light, p.light), append(g.shadow, p.shadow)
		owner[p.light], owner[p.shadow] = int32(k+1), int32(k+1)
	}
	f.attachPieces(families, owner)
	return families
}

// turnedRound reports whether a pair takes for its shadow the light of a family that it
// touches, or the other way round: a highlight, or a crease, is no family of its own.
func (f *Finder) turnedRound(families []gathered, owner []int32, p familyPair) bool {
	for i := range f.areas.edges {
		e := &f.areas.edges[i]
		in, out := e.a, e.b
		if owner[in] == 0 {
			in, out = out, in
		}
		if owner[in] == 0 || out != p.light && out != p.shadow {
			continue
		}
		q := families[owner[in]-1].first
		if f.apart(p.shadow, q.light) <= oneLocal || f.apart(p.light, q.shadow) <= oneLocal {
			return true
		}
	}
	return false
}

// attachPieces adds areas that are in no pair to the families that they touch. Over a line,
// their colour has to be the same.
func (f *Finder) attachPieces(families []gathered, owner []int32) {
	a := &f.areas
	for changed := true; changed; {
		changed = false
		for i := range a.edges {
			e := &a.edges[i]
			in, out := e.a, e.b
			if owner[in] == 0 {
				in, out = out, in
			}
			if owner[in] == 0 || owner[out] != 0 || a.list[out].ground {
				continue
			}
			if families[owner[in]-1].attach(f, out, e.isLined()) {
				owner[out], changed = owner[in], true
			}
		}
	}
}

// attach adds an area to the side whose colour it nearly has.
func (g *gathered) attach(f *Finder, area int32, lined bool) bool {
	limit := oneLocal
	if !lined {
		limit = max(pieceWithin, piecePart*f.apart(g.first.light, g.first.shadow))
	}
	near, far := f.apart(area, g.first.light), f.apart(area, g.first.shadow)
	switch {
	case f.areas.list[area].n == 0 || min(near, far) > limit:
		return false
	case near < far:
		g.light = append(g.light, area)
	default:
		g.shadow = append(g.shadow, area)
	}
	return true
}
