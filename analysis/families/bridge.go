package families

import (
	"cmp"
	"math"
	"slices"
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
	accentBelow   = 30.0 // an accent that is too dark is still one
)

// bridgeOf returns the bridge that area m is, if it is one: between the two
// areas on which most of its outline lies.
func (f *Finder) bridgeOf(m int32, around [][]int32) (b bridge, ok bool) {
	a, edges := &f.areas, around[m]
	whole := a.list[m].rimCells()
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
	if p.ground || q.ground || !f.alike(light, shadow) || hueScore(p.mean(), q.mean()) < bridgeHue {
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
