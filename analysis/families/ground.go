package families

// What makes a background (found on drawn scenes; no source, but that it runs round the
// frame).
const (
	groundRim     = 0.25 // part of the frame that a background touches
	groundLike    = 6.0  // distance in L*a*b* up to which areas at the frame are one background
	pocketLike    = 4.0  // and areas inside it
	texturedFrom  = 8    // a ground is textured where so many areas touch the frame that are of no one colour
	texturedRange = 30.0 // L* from its darkest to its lightest area at the frame, at most
	texturedPart  = 0.03 // of the picture, up to which an area counts as texture
)

// markGround marks the areas of the background: what runs round the frame, in one piece or
// in pieces of one colour, and, where the ground is textured, the small areas of its colours
// that hang together with the frame.
func (f *Finder) markGround() {
	a := &f.areas
	f.addInnerRims()
	var touching []int32
	for i := range a.list {
		r := &a.list[i]
		r.ground = false
		if r.rim > 0 && r.n > 0 {
			touching = append(touching, int32(i))
		}
	}
	whole := float64(f.source.border)
	for _, i := range touching {
		r := &a.list[i]
		rim := 0
		for _, k := range touching {
			if f.apart(i, k) > groundLike {
				continue
			}
			rim += a.list[k].rim
		}
		r.ground = float64(rim) >= groundRim*whole
	}
	f.markTexture(touching, whole)
	f.markPockets()
}

// addInnerRims counts the cells that meet what lies beyond inside the frame, such as an area
// left out in a corner, among those at the frame's sides.
func (f *Finder) addInnerRims() {
	for _, i := range f.source.inner {
		l := f.areas.label[i]
		if l == noArea {
			continue
		}
		for _, meets := range f.source.beyondSides(int(i)) {
			if meets {
				f.areas.list[l].rim++
			}
		}
	}
}

// markTexture marks a textured ground.
func (f *Finder) markTexture(touching []int32, whole float64) {
	a := &f.areas
	small := int(texturedPart * float64(f.source.counted))
	rim, unlike := 0, 0
	for _, i := range touching {
		if a.list[i].all < small {
			rim += a.list[i].rim
		}
		if !a.list[i].ground {
			unlike++
		}
	}
	if unlike < texturedFrom || 2*float64(rim) < whole {
		return
	}
	low := channels(a.list[touching[0]].mean())
	high := low
	for _, i := range touching {
		for c, v := range channels(a.list[i].mean()) {
			low[c], high[c] = min(low[c], v), max(high[c], v)
		}
	}
	if high[0]-low[0] > texturedRange { // a crowd of forms that reaches the frame
		return
	}
	for _, i := range touching {
		if a.list[i].all < small {
			a.list[i].ground = true
		}
	}
	like := func(r *familyArea) bool {
		for c, v := range channels(r.mean()) {
			if over := 2 + (high[c]-low[c])/2; v < low[c]-over || v > high[c]+over {
				return false
			}
		}
		return r.all < small
	}
	for changed := true; changed; {
		changed = false
		for i := range a.edges {
			e := &a.edges[i]
			p, q := &a.list[e.a], &a.list[e.b]
			if q.ground {
				p, q = q, p
			}
			if p.ground && !q.ground && !e.isLined() && like(q) {
				q.ground, changed = true, true
			}
		}
	}
}

// markPockets marks pieces of the ground that forms enclose. A form of the ground's colour
// has a line around it.
func (f *Finder) markPockets() {
	a := &f.areas
	lined, length := make([]int, len(a.list)), make([]int, len(a.list))
	for i := range a.edges {
		e := &a.edges[i]
		for _, k := range [2]int32{e.a, e.b} {
			lined[k] += e.lined
			length[k] += e.length
		}
	}
	var grounds []int
	for i := range a.list {
		if a.list[i].ground {
			grounds = append(grounds, i)
		}
	}
	for i := range a.list {
		r := &a.list[i]
		limit := groundLike
		if r.rim == 0 {
			limit = pocketLike
			if 5*lined[i] > 2*length[i] {
				continue
			}
		}
		for _, k := range grounds {
			r.ground = r.ground || r.n > 0 && r.apart(&a.list[k].moments) <= limit
		}
	}
}
