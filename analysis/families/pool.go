package families

import (
	"cmp"
	"slices"
)

// oneColour is how far apart in L*a*b* areas are, at most, that are pooled as one colour (our
// choice: about as far as a painter would call them one colour of the picture).
const oneColour = 4.0

// poolPart is the part of the counted picture that a colour has at least, in all its pieces
// (our choice).
const poolPart = 0.0012

// pooled is all areas of one colour: a crowd of small forms is as much of a local colour as
// one large form.
type pooled struct {
	moments
	areas        []int32
	all          int           // cells
	outline      int           // pairs of cells around its areas, the frame's included
	lined        int           // of them, those with a line
	beside       map[int32]int // of them, those to each other colour
	rim          int           // cells at the frame
	ground       bool
	around       float64 // part of the frame that a ground touches, 0 for what is none: all is blank, less may be a wall
	scale, stair bool    // see familyArea
}

// border is all edges between two pooled colours.
type border struct {
	a, b          int32 // a < b
	length, lined int
	sharp         float64 // the part of the way between the two that lies in an edge, times its length
	edges         []int32
}

// poolColours pools the areas by colour, the largest first. It returns the colours and, for
// each area, the one that it belongs to, -1 for none.
func (f *Finder) poolColours() (pools []pooled, of []int32) {
	of = f.likeColours()
	f.partByRole(of)
	a := &f.areas
	index := map[int32]int32{}
	for i, k := range of {
		if k < 0 {
			continue
		}
		at, ok := index[k]
		if !ok {
			at = int32(len(pools))
			index[k] = at
			pools = append(pools, pooled{beside: map[int32]int{}})
		}
		r, p := &a.list[i], &pools[at]
		p.join(&r.moments)
		p.areas = append(p.areas, int32(i))
		p.all += r.all
		p.outline += r.rim
		p.rim += r.rim
		p.ground, p.scale, p.stair = p.ground || r.ground, p.scale || r.scale, p.stair || r.stair
		of[i] = at
	}
	whole := float64(2 * (f.source.frame.Dx() + f.source.frame.Dy()))
	for k := range pools {
		p := &pools[k]
		p.around = flag(p.ground) * min(1, float64(p.rim)/whole)
	}
	return dropSmall(pools, of, int(poolPart*float64(f.source.counted)))
}

// likeColours gives each area the number of the largest one of its colour, -1 where it has no
// colour. Background and figure keep apart.
func (f *Finder) likeColours() (of []int32) {
	a := &f.areas
	of = make([]int32, len(a.list))
	order := make([]int32, 0, len(a.list))
	for i := range a.list {
		of[i] = -1
		if a.list[i].n > 0 {
			order = append(order, int32(i))
		}
	}
	slices.SortFunc(order, func(i, k int32) int {
		return cmp.Or(cmp.Compare(a.list[k].all, a.list[i].all), cmp.Compare(i, k))
	})
	var first []int32
	for _, i := range order {
		r, nearest := &a.list[i], oneColour*oneColour
		of[i] = i
		for _, k := range first {
			if d := squareApart(a.list[k].mean(), r.mean()); d <= nearest && a.list[k].ground == r.ground {
				of[i], nearest = k, d
			}
		}
		if of[i] == i {
			first = append(first, i)
		}
	}
	return of
}

// besidePart is the part of an area's outline from which on a neighbour says what it is (our
// choice).
const besidePart = 0.15

// partByRole parts the areas of one colour in two where some of them are only lighter than
// what they touch and others only darker: the shadow of one thing may have the colour of
// another's light.
func (f *Finder) partByRole(of []int32) {
	a := &f.areas
	const lighter, darker = 1, 2
	role := make([]uint8, len(a.list))
	for i := range a.edges {
		e := &a.edges[i]
		p, q := a.lighter(e.a, e.b)
		if of[p] < 0 || of[q] < 0 || of[p] == of[q] || a.list[p].ground || a.list[q].ground || e.isLined() || !f.alike(p, q) {
			continue
		}
		if float64(e.length) >= besidePart*float64(a.list[p].outline) {
			role[p] |= lighter
		}
		if float64(e.length) >= besidePart*float64(a.list[q].outline) {
			role[q] |= darker
		}
	}
	cells := map[[2]int32]int{} // by colour and role
	for i, k := range of {
		cells[[2]int32{k, int32(role[i])}] += a.list[i].all
	}
	first := make(map[int32]int32) // of the darker areas of a colour, where they are parted
	for i, k := range of {
		if k < 0 || role[i] != darker || cells[[2]int32{k, lighter}] == 0 || cells[[2]int32{k, lighter | darker}] > 0 {
			continue
		}
		if to, ok := first[k]; ok {
			of[i] = to
		} else if first[k] = int32(i); k == int32(i) {
			// the number stays with the others
			first[k] = int32(len(a.list)) + k
			of[i] = first[k]
		} else {
			of[i] = int32(i)
		}
	}
}

// dropSmall drops colours of fewer cells than least.
func dropSmall(pools []pooled, of []int32, least int) ([]pooled, []int32) {
	kept, to := pools[:0], make([]int32, len(pools))
	for k, p := range pools {
		if to[k] = -1; p.all >= least {
			to[k] = int32(len(kept))
			kept = append(kept, p)
		}
	}
	for i, k := range of {
		if k >= 0 {
			of[i] = to[k]
		}
	}
	return kept, of
}

// poolEdges pools the edges between the colours.
func (f *Finder) poolEdges(pools []pooled, of []int32) (borders []border) {
	a := &f.areas
	index := map[[2]int32]int{}
	for i := range a.edges {
		e := &a.edges[i]
		p, q := of[e.a], of[e.b]
		if p < 0 || q < 0 || p == q {
			continue
		}
		for _, s := range [2][2]int32{{p, q}, {q, p}} {
			own := &pools[s[0]]
			own.outline += e.length
			own.lined += e.lined
			own.beside[s[1]] += e.length
		}
		key := [2]int32{min(p, q), max(p, q)}
		k, ok := index[key]
		if !ok {
			k = len(borders)
			index[key] = k
			borders = append(borders, border{a: key[0], b: key[1]})
		}
		b := &borders[k]
		b.length += e.length
		b.lined += e.lined
		b.sharp += float64(e.length) * min(e.contrast()/max(f.apart(e.a, e.b), 1e-9), 1)
		b.edges = append(b.edges, int32(i))
	}
	return borders
}
