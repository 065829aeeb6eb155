package families

import (
	"cmp"
	"math"
	"slices"

	"app.tonedesk/analysis/colour"
)

// bridge is a narrow area between a light and its shadow: part of a soft transition, or an
// accent.
type bridge struct {
	area, light, shadow int32
	mark                uint8 // bridgeCell if it stands out from both, halfCell for a half-tone, or 0
}

// mostBridges is how many bridges may lie side by side.
const mostBridges = 6

// dissolveBridges gives the cells of narrow areas between two others to the nearer of the
// two in colour; those of an accent stay out of the sides' colours.
func (f *Finder) dissolveBridges() {
	for range mostBridges {
		f.markScales()
		found := f.bridges()
		if len(found) == 0 {
			return
		}
		f.dissolve(found)
		f.remeasure()
	}
}

// bridges lists narrow areas that may be dissolved at once: none borders on another.
func (f *Finder) bridges() []bridge {
	a := &f.areas
	around := a.edgesByArea()
	order := make([]int32, 0, len(a.list))
	for i := range a.list {
		if a.list[i].n > 0 && !a.list[i].ground {
			order = append(order, int32(i))
		}
	}
	slices.SortFunc(order, func(p, q int32) int {
		return cmp.Or(cmp.Compare(a.list[p].all, a.list[q].all), cmp.Compare(p, q))
	})
	var found []bridge
	fixed := make([]bool, len(a.list))
	for _, m := range order {
		if fixed[m] {
			continue
		}
		if b, ok := f.bridgeOf(m, around); ok && !fixed[b.light] && !fixed[b.shadow] {
			found = append(found, b)
			for _, k := range around[m] {
				fixed[a.edges[k].other(m)] = true
			}
			fixed[m] = true
		}
	}
	return found
}

// What lies between two areas is a bridge if it has so much of its outline on them, in even
// shares at least, is no wider than a part of the root of the smaller one (more, if it stands
// out as an accent does), and hardly lighter than the one or darker than the other (found on
// drawn scenes; no source).
const (
	bridgeOutline = 0.5
	bridgeShare   = 0.2
	bridgeWidth   = 0.3
	accentWidth   = 0.5
	bridgeHue     = 0.35 // hueScore of the two
	bridgeAbove   = 4.0  // L*
	bridgeBelow   = 10.0
	accentBelow   = accentBeyond // of an accent: one that is too dark is still one
)

// bridgeOf returns the bridge that area m is, if it is one: between the two
// areas on which most of its outline lies.
func (f *Finder) bridgeOf(m int32, around [][]int32) (b bridge, ok bool) {
	a, edges := &f.areas, around[m]
	whole := a.list[m].rim
	for _, k := range edges {
		whole += a.edges[k].length
	}
	most := 0
	for i, k := range edges {
		for _, l := range edges[i+1:] {
			e, g := &a.edges[k], &a.edges[l]
			both := e.length + g.length
			if both <= most || float64(both) < bridgeOutline*float64(whole) || float64(min(e.length, g.length)) < bridgeShare*float64(whole) {
				continue
			}
			found, fits := f.bridgeBetween(m, e, g)
			if half, flat := f.halfBetween(m, e, g, around); flat && (!fits || found.mark != bridgeCell && f.sharp(e) && f.sharp(g)) {
				found, fits = half, true
			}
			if fits {
				b, ok, most = found, true, both
			}
		}
	}
	return b, ok
}

// bridgeBetween returns area m as a bridge between those at the other ends of two edges.
func (f *Finder) bridgeBetween(m int32, e, g *familyEdge) (b bridge, fits bool) {
	a := &f.areas
	light, shadow := a.lighter(e.other(m), g.other(m))
	p, q, between := &a.list[light], &a.list[shadow], a.list[m].mean()
	if p.ground || q.ground || !f.alike(light, shadow) || p.mean().L-q.mean().L > mostApart || hueScore(p.mean(), q.mean()) < bridgeHue {
		return b, false
	}
	b = bridge{area: m, light: light, shadow: shadow}
	narrow, lines, below := bridgeWidth, 0, bridgeBelow
	if standsOut(between, p.mean(), q.mean()) > 0.5 {
		b.mark = bridgeCell
		narrow, lines, below = accentWidth, 1, accentBelow
	}
	if between.L > p.mean().L+bridgeAbove || between.L < q.mean().L-below {
		return b, false
	}
	for _, o := range [2]*familyEdge{e, g} {
		if o.isLined() {
			lines--
		}
	}
	smaller := min(p.all, q.all)
	width := float64(a.list[m].all) / (float64(e.length+g.length) / 2 * math.Pi / 4)
	return b, lines >= 0 && a.list[m].all <= smaller && width <= narrow*math.Sqrt(float64(smaller))
}

// dissolve gives the bridges' cells away.
func (f *Finder) dissolve(found []bridge) {
	p, a := &f.planes, &f.areas
	to := make(map[int32]bridge, len(found))
	for _, b := range found {
		to[b.area] = b
	}
	for i, l := range a.label {
		b, ok := to[l]
		if !ok {
			continue
		}
		c := labAt(&p.flat, int32(i))
		a.label[i] = b.shadow
		if squareApart(c, a.list[b.light].mean()) < squareApart(c, a.list[b.shadow].mean()) {
			a.label[i] = b.light
		}
		p.thin[i] |= b.mark
	}
}

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
	for _, k := range around[light] {
		between := &a.edges[k]
		if between.other(light) == shadow && float64(between.length) > halfTouch*float64(min(e.length, g.length)) {
			return b, false
		}
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
