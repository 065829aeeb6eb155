package analysis

// A ground is textured where so many areas touch the frame.
const texturedFrom = 8

// markGround marks the areas of the background: what runs round the frame or across the
// picture and, where the ground is textured, the small areas of its colours that hang
// together with the frame.
func (f *FamilyFinder) markGround() {
	a, s := &f.areas, &f.source
	size := s.frame.Size()
	touching, small, smallRim := 0, int(0.03*float64(s.counted)), 0
	var low, high [3]float64
	for i := range a.list {
		r := &a.list[i]
		r.ground = r.acrossFrame(2 * (size.X + size.Y))
		if r.rimCells() == 0 || r.cells() == 0 {
			continue
		}
		m := r.mean()
		if touching == 0 {
			low, high = m, m
		}
		for c := range m {
			low[c], high[c] = min(low[c], m[c]), max(high[c], m[c])
		}
		touching++
		if r.all < small {
			smallRim += r.rimCells()
		}
	}
	f.spreadGround()
	if touching < texturedFrom || smallRim < size.X+size.Y {
		return
	}
	like := func(r *familyArea) bool {
		m := r.mean()
		for c := range m {
			if over := 2 + (high[c]-low[c])/2; m[c] < low[c]-over || m[c] > high[c]+over {
				return false
			}
		}
		return r.all < small
	}
	for i := range a.list {
		r := &a.list[i]
		if r.rimCells() > 0 && r.all < small {
			r.ground = true
		}
	}
	for changed := true; changed; {
		changed = false
		for i := range a.edges {
			e := &a.edges[i]
			p, q := &a.list[e.a], &a.list[e.b]
			if p.ground == q.ground || 2*e.lined > e.length {
				continue
			}
			if q.ground {
				p, q = q, p
			}
			if like(q) {
				q.ground, changed = true, true
			}
		}
	}
}

// spreadGround marks what has a colour of the ground: where forms cut it into pieces, or
// enclose a piece of it. A form of that colour has a line around it.
func (f *FamilyFinder) spreadGround() {
	a := &f.areas
	lined, length := make([]int, len(a.list)), make([]int, len(a.list))
	for i := range a.edges {
		e := &a.edges[i]
		for _, k := range [2]int32{e.a, e.b} {
			lined[k] += e.lined
			length[k] += e.length
		}
	}
	grounds := make([]int, 0, 8)
	for i := range a.list {
		if a.list[i].ground {
			grounds = append(grounds, i)
		}
	}
	for i := range a.list {
		r := &a.list[i]
		if r.ground || r.cells() == 0 || r.rimCells() == 0 && 5*lined[i] > 2*length[i] {
			continue
		}
		limit := 4.0
		if r.rimCells() > 0 {
			limit = 8
		}
		for _, k := range grounds {
			r.ground = r.ground || r.colour.apart(&a.list[k].colour) < limit
		}
	}
}

func (r *familyArea) rimCells() int { return r.rim[0] + r.rim[1] + r.rim[2] + r.rim[3] }

// acrossFrame reports whether an area runs round the frame, or across the picture.
func (r *familyArea) acrossFrame(whole int) bool {
	sides := 0
	for _, n := range r.rim {
		if n > 0 {
			sides++
		}
	}
	return sides >= 3 || 10*r.rimCells() >= 3*whole || r.rim[0] > 0 && r.rim[2] > 0 || r.rim[1] > 0 && r.rim[3] > 0
}
