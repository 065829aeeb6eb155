package analysis

// A scale has at least so many steps, and each step and its edge are alike the one before
// within this factor (found on drawn scenes; no source).
const (
	scaleSteps = 3
	scaleAlike = 1.7
)

// scaleStep is an edge with a lighter and a darker area of like hue.
type scaleStep struct {
	light, shadow int32
	apart         float64 // L*
	length        int
	above, below  int // steps before and behind, up to scaleSteps
}

// markScales marks the areas of scales: areas in a row, each darker than the one before by
// about as much, as in a grey wedge. Light and shadow come in twos, at most with a half-tone
// between.
func (f *FamilyFinder) markScales() {
	var steps []scaleStep
	a := &f.areas
	for i := range a.edges {
		e := &a.edges[i]
		light, shadow := a.lighter(e)
		p, q := &a.list[light], &a.list[shadow]
		if p.ground || q.ground || e.isLined() || min(p.all, q.all) < f.leastArea() || !f.alike(light, shadow) {
			continue
		}
		steps = append(steps, scaleStep{light: light, shadow: shadow, apart: p.mean()[0] - q.mean()[0], length: e.length})
	}
	for range scaleSteps { // each round finds one step more
		for i := range steps {
			for k := range steps {
				if p, q := &steps[i], &steps[k]; p.continues(q) {
					q.above = max(q.above, min(p.above+1, scaleSteps))
					p.below = max(p.below, min(q.below+1, scaleSteps))
				}
			}
		}
	}
	for _, s := range steps {
		if s.above+s.below+1 >= scaleSteps {
			a.list[s.light].scale, a.list[s.shadow].scale = true, true
		}
	}
}

// continues reports whether q goes on where s ends, as steps of one scale do.
func (s *scaleStep) continues(q *scaleStep) bool {
	return s.shadow == q.light && within(s.apart, q.apart, scaleAlike) && within(float64(s.length), float64(q.length), scaleAlike)
}

// within reports whether two positive numbers differ by no more than a factor.
func within(a, b, factor float64) bool { return a <= b*factor && b <= a*factor }

// lighter returns the areas of an edge, the lighter first.
func (a *familyAreas) lighter(e *familyEdge) (light, shadow int32) {
	if a.list[e.a].mean()[0] < a.list[e.b].mean()[0] {
		return e.b, e.a
	}
	return e.a, e.b
}
