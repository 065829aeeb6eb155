package families

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// A half-tone is an area between a light and a shadow of like hue that hardly touch each
// other. Its colour lies between theirs: halfInner of the way from either at least, and
// beside the way by no more than halfBeside of it, or halfOff in L*a*b* where that is more.
// Either side has at least halfEnd of its cells (found on drawn scenes; no source).
const (
	halfInner  = 0.2
	halfBeside = 0.06
	halfOff    = 2.0
	halfEnd    = 0.5
	halfAlike  = 1.6  // factor between its edges with the two
	halfTouch  = 0.15 // of the shorter edge with the half-tone, up to which the sides hardly touch
)

// halfBetween returns area m as a half-tone between those at the other ends of two of its
// edges. around are the edges of each area.
func (f *Finder) halfBetween(m int32, e, g *familyEdge, around [][]int32) (b bridge, fits bool) {
	a := &f.areas
	light, shadow := a.lighter(e.other(m), g.other(m))
	p, q, half := &a.list[light], &a.list[shadow], &a.list[m]
	b = bridge{m, light, shadow, halfCell}
	switch {
	case p.ground || q.ground || p.scale || q.scale || half.scale || e.isLined() || g.isLined(),
		!within(float64(e.length), float64(g.length), halfAlike),
		!f.alike(light, m) || !f.alike(m, shadow) || !f.alike(light, shadow),
		float64(min(p.all, q.all)) < halfEnd*float64(half.all) || min(p.all, q.all) < f.leastArea(),
		!isBetween(half.mean(), p.mean(), q.mean()):
		return b, false
	}
	touching := f.edgeLength(light, shadow, around[light])
	if float64(touching) > halfTouch*float64(min(e.length, g.length)) {
		return b, false
	}
	return b, !f.goesOn(light, m, 1, around[light]) && !f.goesOn(shadow, m, -1, around[shadow])
}

// sharp reports whether an edge is sharp: what lies along a soft one belongs to the sides.
func (f *Finder) sharp(e *familyEdge) bool {
	return e.contrast() >= sharpStep*f.apart(e.a, e.b)
}

// isBetween reports whether a colour lies between two others.
func isBetween(c, light, shadow colour.Lab) bool {
	way := minus(shadow, light)
	t, square := fromLine(c, light, way)
	return t >= halfInner && t <= 1-halfInner && math.Sqrt(square) <= max(halfOff, halfBeside*math.Sqrt(dot(way, way)))
}

// edgeLength returns how long the edge between two areas is; edges are one's.
func (f *Finder) edgeLength(area, other int32, edges []int32) int {
	for _, k := range edges {
		if e := &f.areas.edges[k]; e.other(area) == other {
			return e.length
		}
	}
	return 0
}

// goesOn reports whether an area has another neighbour than from that is its light, for way
// 1, or its shadow: then it is a step of something longer, or a form of its own.
func (f *Finder) goesOn(area, from int32, way float64, edges []int32) bool {
	a := &f.areas
	for _, k := range edges {
		e := &a.edges[k]
		o := e.other(area)
		if o == from || a.list[o].ground || e.isLined() || a.list[o].all < f.leastArea() {
			continue
		}
		step := way * (a.list[o].mean().L - a.list[area].mean().L)
		ratio := float64(e.length) * math.Pi / 4 / math.Sqrt(float64(min(a.list[o].all, a.list[area].all)))
		if step >= leastApart && ratio >= leastEdge && hueScore(a.list[o].mean(), a.list[area].mean()) > 0 {
			return true
		}
	}
	return false
}
