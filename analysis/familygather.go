package analysis

// gathered is a family in the making: which areas make its sides.
type gathered struct{ light, shadow []int32 }

// gather turns pairs into families: it adds what is left over beside them of nearly the
// colour of one side, and joins pairs of one local colour.
func (f *FamilyFinder) gather(pairs []familyPair) []gathered {
	a := &f.areas
	owner := make([]int32, len(a.list)) // 1 + pair, 0 for none
	families := make([]gathered, len(pairs))
	for k, p := range pairs {
		families[k] = gathered{[]int32{p.light}, []int32{p.shadow}}
		owner[p.light], owner[p.shadow] = int32(k+1), int32(k+1)
	}
	for changed := true; changed; {
		changed = false
		for i := range a.edges {
			e := &a.edges[i]
			in, out := e.a, e.b
			if owner[in] == 0 {
				in, out = out, in
			}
			if owner[in] == 0 || owner[out] != 0 || a.list[out].ground || 2*e.lined > e.length {
				continue
			}
			k := owner[in] - 1
			if f.attach(&families[k], pairs[k], out) {
				owner[out], changed = k+1, true
			}
		}
	}
	return f.joinAlike(families, pairs)
}

// attach adds an area to the side of a family whose colour it nearly has.
func (f *FamilyFinder) attach(g *gathered, p familyPair, area int32) bool {
	a := &f.areas
	light, shadow := &a.list[p.light].colour, &a.list[p.shadow].colour
	c := &a.list[area].colour
	near, far := c.apart(light), c.apart(shadow)
	limit := max(5, 0.35*light.apart(shadow))
	switch {
	case min(near, far) > limit:
		return false
	case near < far:
		g.light = append(g.light, area)
	default:
		g.shadow = append(g.shadow, area)
	}
	return true
}

// oneLocal is the distance in L*a*b* up to which both sides of two pairs are one local
// colour.
const oneLocal = 4.0

func (f *FamilyFinder) joinAlike(families []gathered, pairs []familyPair) []gathered {
	a := &f.areas
	var kept []gathered
	var first []int // index into pairs of each kept one
	for k, g := range families {
		joined := false
		for m, o := range first {
			p, q := pairs[k], pairs[o]
			if a.list[p.light].colour.apart(&a.list[q.light].colour) <= oneLocal && a.list[p.shadow].colour.apart(&a.list[q.shadow].colour) <= oneLocal {
				kept[m].light, kept[m].shadow = append(kept[m].light, g.light...), append(kept[m].shadow, g.shadow...)
				joined = true
				break
			}
		}
		if !joined {
			kept, first = append(kept, g), append(first, k)
		}
	}
	return kept
}
