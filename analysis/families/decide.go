package families

import (
	"cmp"
	"slices"
)

// alikeSides is how far apart in L*a*b* the sides of two local colours are, at most, that are
// one (our choice: each may lie oneColour from what it was pooled with).
const alikeSides = 1.5 * oneColour

// decision is what was weighed of a picture, and what came of it.
type decision struct {
	pools  []pooled
	of     []int32 // by area: its colour, -1 for none
	links  []link
	figure int     // cells that aren't background
	ragged float64 // see raggedness
	locals []local // the largest first
}

// local is a local colour: all colours that it shows in, as a light and a shadow side.
type local struct {
	areas      [2][]int32 // light, shadow
	main       [2][]int32 // of them, those of the side's main step
	confidence float64    // 0 to 1

	sides   [2][]int32 // pooled colours
	mains   [2]int32
	cells   [2]int
	figures [sureFigures]float64
	off     [2]float64 // a* and b* of the shadow beside the light's own, in less light; over L*
	depth   float64    // how far the shadow lies below the light
	weight  float64    // how much it says of the picture's light
	ramp    bool       // runs evenly from end to end: no light and shadow
}

// decide finds the local colours of all colours that touch, at once: what hangs together is
// one local colour, which is then cut into light and shadow; at the end each is weighed
// beside the others, since one light falls on all of a picture.
func (f *Finder) decide() *decision {
	f.areas.measureOutlines()
	f.markScales()
	d := &decision{}
	d.pools, d.of = f.poolColours()
	for i := range d.pools {
		if !d.pools[i].ground {
			d.figure += d.pools[i].all
		}
	}
	d.links = f.links(d.pools, f.poolEdges(d.pools, d.of), d.figure)
	for i := range d.links {
		d.links[i].logit = weigh(f.model.Link[:], d.links[i].figures[:])
	}
	for _, group := range join(d.links, len(d.pools)) {
		d.locals = append(d.locals, d.cut(group))
	}
	d.joinAlike()
	d.ragged = d.raggedness()
	d.measure()
	d.locals = slices.DeleteFunc(d.locals, func(l local) bool { return l.ramp })
	for i := range d.locals {
		l := &d.locals[i]
		l.confidence = sigmoid(weigh(f.model.Sure[:], l.figures[:]))
	}
	slices.SortStableFunc(d.locals, func(p, q local) int { return cmp.Compare(q.cells[0]+q.cells[1], p.cells[0]+p.cells[1]) })
	return d
}

// lenience is added to the logits before colours are joined: what is joined is weighed once
// more, what isn't joined is lost (our choice).
const lenience = 0.4

// join groups colours into local colours: the two groups for which the sum of the logits
// between them speaks most are joined, as long as there are such (JOIN).
func join(links []link, colours int) (groups [][]int32) {
	into, sums := make([]int32, colours), make([]map[int32]float64, colours)
	for i := range into {
		into[i], sums[i] = int32(i), map[int32]float64{}
	}
	for _, l := range links {
		sums[l.light][l.shadow] = l.logit + lenience
		sums[l.shadow][l.light] = l.logit + lenience
	}
	for {
		a, b := strongest(sums)
		if a < 0 {
			break
		}
		for k, v := range sums[b] {
			delete(sums[k], b)
			if k != a {
				sums[a][k] += v
				sums[k][a] += v
			}
		}
		sums[b] = nil
		for i := range into {
			if into[i] == b {
				into[i] = a
			}
		}
	}
	groups = make([][]int32, colours)
	for i, g := range into {
		groups[g] = append(groups[g], int32(i))
	}
	return slices.DeleteFunc(groups, func(g []int32) bool { return len(g) < 2 })
}

// strongest returns the two groups with the largest sum above 0 between them, of equal ones
// the first; -1 if there are none.
func strongest(sums []map[int32]float64) (a, b int32) {
	a, b = -1, -1
	most := 0.0
	for i := range sums {
		first := int32(i)
		for k, v := range sums[i] {
			if first < k && (v > most || v == most && first == a && k < b) {
				a, b, most = first, k, v
			}
		}
	}
	return a, b
}

// cut cuts a group of colours into light and shadow where that parts their lightness best
// (OTSU's criterion, by cells). The largest colour of a side is its main step.
func (d *decision) cut(group []int32) (l local) {
	slices.SortFunc(group, func(i, k int32) int {
		return cmp.Or(cmp.Compare(d.pools[k].mean().L, d.pools[i].mean().L), cmp.Compare(i, k))
	})
	all, sum := 0.0, 0.0
	for _, i := range group {
		all += float64(d.pools[i].all)
		sum += float64(d.pools[i].all) * d.pools[i].mean().L
	}
	best, at, n, lit := -1.0, 1, 0.0, 0.0
	for i, c := range group[:len(group)-1] {
		n += float64(d.pools[c].all)
		lit += float64(d.pools[c].all) * d.pools[c].mean().L
		apart := lit/n - (sum-lit)/(all-n)
		if between := n * (all - n) * apart * apart; between > best {
			best, at = between, i+1
		}
	}
	l.sides = [2][]int32{group[:at], group[at:]}
	for s, side := range l.sides {
		l.mains[s] = slices.MaxFunc(side, func(i, k int32) int { return cmp.Compare(d.pools[i].all, d.pools[k].all) })
		l.main[s] = d.pools[l.mains[s]].areas
		for _, i := range side {
			l.areas[s] = append(l.areas[s], d.pools[i].areas...)
			l.cells[s] += d.pools[i].all
		}
	}
	return l
}

// joinAlike joins local colours whose main steps have nearly the same colours: they may lie
// apart, as two hands do.
func (d *decision) joinAlike() {
	kept := d.locals[:0]
	for _, l := range d.locals {
		k := slices.IndexFunc(kept, func(o local) bool {
			for s := range l.mains {
				if squareApart(d.pools[l.mains[s]].mean(), d.pools[o.mains[s]].mean()) > alikeSides*alikeSides {
					return false
				}
			}
			return true
		})
		if k < 0 {
			kept = append(kept, l)
			continue
		}
		o := &kept[k]
		for s := range l.sides {
			o.sides[s] = append(o.sides[s], l.sides[s]...)
			o.areas[s] = append(o.areas[s], l.areas[s]...)
			o.main[s] = append(slices.Clip(o.main[s]), l.main[s]...)
			o.cells[s] += l.cells[s]
		}
	}
	d.locals = kept
}
