package families

import (
	"cmp"
	"math"
	"slices"
)

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
func (f *Finder) markScales() {
	var steps []scaleStep
	a := &f.areas
	for i := range a.edges {
		e := &a.edges[i]
		light, shadow := a.lighter(e.a, e.b)
		p, q := &a.list[light], &a.list[shadow]
		if p.ground || q.ground || e.isLined() || min(p.all, q.all) < f.leastArea() || !f.alike(light, shadow) {
			continue
		}
		steps = append(steps, scaleStep{light: light, shadow: shadow, apart: p.mean().L - q.mean().L, length: e.length})
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
	f.markStaircase()
}

// A staircase is at least so many greys of one size within this factor, of different
// lightness: a grey scale may lie on a ground that is as grey as one step and cuts it in two
// (found on drawn scenes; no source).
const (
	stairSteps  = 4
	stairAlike  = 1.15
	stairChroma = 3.0 // C*ab up to which a step counts as grey
	stairApart  = 3.0 // L* from step to step, at least
)

// markStaircase marks the steps of staircases as those of scales.
func (f *Finder) markStaircase() {
	a := &f.areas
	var greys []int
	for i := range a.list {
		r := &a.list[i]
		if !r.ground && r.all >= f.leastArea() && r.n > 0 && r.mean().Chroma() <= stairChroma {
			greys = append(greys, i)
		}
	}
	slices.SortStableFunc(greys, func(i, k int) int { return cmp.Compare(a.list[i].mean().L, a.list[k].mean().L) })
	for _, i := range greys {
		var steps []int
		last := math.Inf(-1)
		for _, k := range greys {
			l := a.list[k].mean().L
			if l-last >= stairApart && within(float64(a.list[i].all), float64(a.list[k].all), stairAlike) {
				steps = append(steps, k)
				last = l
			}
		}
		if len(steps) >= stairSteps {
			for _, k := range steps {
				a.list[k].scale, a.list[k].stair = true, true
			}
		}
	}
}

// continues reports whether q goes on where s ends, as steps of one scale do.
func (s *scaleStep) continues(q *scaleStep) bool {
	return s.shadow == q.light && within(s.apart, q.apart, scaleAlike) && within(float64(s.length), float64(q.length), scaleAlike)
}

// within reports whether two positive numbers differ by no more than a factor.
func within(a, b, factor float64) bool { return a <= b*factor && b <= a*factor }
