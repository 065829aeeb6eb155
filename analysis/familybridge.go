package analysis

import (
	"cmp"
	"math"
	"slices"
)

// bridge is a narrow area between a light and its shadow: part of a soft transition, or an
// accent.
type bridge struct {
	area, light, shadow int32
	accent              bool // it stands out from both
}

// dissolveBridges gives the cells of narrow areas between two others to the nearer of the
// two in colour. They stay out of the sides' means.
func (f *FamilyFinder) dissolveBridges() {
	for range 6 {
		found := f.bridges()
		if len(found) == 0 {
			return
		}
		f.dissolve(found)
		f.remeasure()
	}
}

// bridges lists narrow areas that may be dissolved at once: none borders on another.
func (f *FamilyFinder) bridges() []bridge {
	a := &f.areas
	around := make([][]int32, len(a.list)) // edges of each area
	for i := range a.edges {
		e := &a.edges[i]
		around[e.a], around[e.b] = append(around[e.a], int32(i)), append(around[e.b], int32(i))
	}
	order := make([]int32, 0, len(a.list))
	for i := range a.list {
		if a.list[i].cells() > 0 && !a.list[i].ground {
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
		if b, ok := f.bridgeOf(m, around[m]); ok && !fixed[b.light] && !fixed[b.shadow] {
			found = append(found, b)
			for _, k := range around[m] {
				fixed[a.edges[k].a+a.edges[k].b-m] = true
			}
			fixed[m] = true
		}
	}
	return found
}

// bridgeOf reports whether an area with such edges lies between two others like a light and
// its shadow.
func (f *FamilyFinder) bridgeOf(m int32, edges []int32) (b bridge, ok bool) {
	a := &f.areas
	whole := a.list[m].rimCells()
	for _, k := range edges {
		whole += a.edges[k].length
	}
	best := 0
	for i, k := range edges {
		for _, l := range edges[i+1:] {
			e, g := &a.edges[k], &a.edges[l]
			p, q := e.a+e.b-m, g.a+g.b-m
			if a.list[p].mean()[0] < a.list[q].mean()[0] {
				p, q = q, p
			}
			if min(e.length, g.length)*5 < whole || (e.length+g.length)*2 < whole || e.length+g.length <= best {
				continue
			}
			stands := f.accented(m, p, q)
			linedE, linedG := 2*e.lined > e.length, 2*g.lined > g.length
			if linedE && linedG || (linedE || linedG) && !stands || a.list[p].ground || a.list[q].ground {
				continue
			}
			narrow := 0.3
			if stands {
				narrow = 0.5
			}
			width := float64(a.list[m].all) / (float64(e.length+g.length) / 2 * math.Pi / 4)
			if smaller := min(a.list[p].all, a.list[q].all); width > narrow*math.Sqrt(float64(smaller)) || a.list[m].all > smaller {
				continue
			}
			if !f.alike(p, q) {
				continue
			}
			best = e.length + g.length
			b, ok = bridge{m, p, q, stands}, true
		}
	}
	return b, ok
}

// accented reports whether an area stands out between two others.
func (f *FamilyFinder) accented(m, light, shadow int32) bool {
	lab := func(i int32) Lab { c := f.areas.list[i].mean(); return Lab{c[0], c[1], c[2]} }
	return standsOut(lab(m), lab(light), lab(shadow)) > 0.5
}

// dissolve gives the bridges' cells away.
func (f *FamilyFinder) dissolve(found []bridge) {
	p, a := &f.planes, &f.areas
	to := make(map[int32]bridge, len(found))
	for _, b := range found {
		to[b.area] = b
	}
	for i, l := range a.label {
		if l == noArea {
			continue
		}
		b, ok := to[l]
		if !ok {
			continue
		}
		light, shadow := a.list[b.light].mean(), a.list[b.shadow].mean()
		near, far := 0.0, 0.0
		for c := range light {
			v := float64(p.flat[c][i]) / cellUnitLab
			near += (v - light[c]) * (v - light[c])
			far += (v - shadow[c]) * (v - shadow[c])
		}
		a.label[i] = b.shadow
		if near < far {
			a.label[i] = b.light
		}
		if b.accent {
			p.thin[i] |= bridgeCell
		}
	}
}
