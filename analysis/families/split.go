package families

import (
	"slices"

	"app.tonedesk/analysis/colour"
)

const (
	splitBins = 512
	splitSpan = 160.0 // L*a*b*: the longest way between two colours that is told apart
)

// softCut is how a smooth area may be cut into a light and a shadow: where its colours, along
// the direction in which they differ most, gather in two masses.
type softCut struct {
	axis, mean colour.Lab
	ok         bool
	counts     [splitBins]int
	cut        float64       // along the axis from the mean: the light lies beyond
	sides      [2]familyArea // shadow, light
}

// along says how far a cell lies in the direction of the light.
func (c *softCut) along(p *familyPlanes, i int) float64 {
	return dot(c.axis, minus(labAt(&p.flat, int32(i)), c.mean))
}

func (c *softCut) bin(d float64) int {
	return min(max(int((d/splitSpan+0.5)*splitBins), 0), splitBins-1)
}

// cutHalfway sets the cut in the middle between the bins at which the counts' lowest and
// highest twentieth end: colours of the two sides, of whatever sizes they are.
func (c *softCut) cutHalfway() {
	all := 0
	for _, n := range c.counts {
		all += n
	}
	endOf := func(twentieths int) float64 {
		at, below := 0, c.counts[0]
		for 20*below < twentieths*all {
			at++
			below += c.counts[at]
		}
		return float64(at)
	}
	c.cut = ((endOf(1)+endOf(19)+1)/2/splitBins - 0.5) * splitSpan
}

// blankRim is the part of the frame from which on a ground that touches it is blank paper, rather
// than a wall or a large form that may run from light into shadow (our choice: half of it).
const blankRim = 0.5

func (f *Finder) isBlank(r *familyArea) bool {
	return r.ground && float64(r.rim) >= blankRim*float64(f.source.border)
}

// softCuts finds the best cut of every area that is large enough for two sides.
func (f *Finder) softCuts(least int) []softCut {
	a, p := &f.areas, &f.planes
	cuts := make([]softCut, len(a.list))
	for i := range cuts {
		if r := &a.list[i]; !f.isBlank(r) && r.all >= 2*least {
			c := &cuts[i]
			c.mean = r.mean()
			c.axis, c.ok = r.mainAxis()
		}
	}
	for i, l := range a.label {
		if l != noArea && cuts[l].ok && p.thin[i] == 0 {
			c := &cuts[l]
			c.counts[c.bin(c.along(p, i))]++
		}
	}
	for i := range cuts {
		if c := &cuts[i]; c.ok {
			c.cutHalfway()
		}
	}
	f.measureCuts(cuts)
	return cuts
}

// measureCuts measures the sides of the cuts.
func (f *Finder) measureCuts(cuts []softCut) {
	a, p := &f.areas, &f.planes
	for i, l := range a.label {
		if l == noArea || !cuts[l].ok {
			continue
		}
		c := &cuts[l]
		side := 0
		if c.along(p, i) >= c.cut {
			side = 1
		}
		f.addCell(&c.sides[side], i)
	}
}

// cutArea cuts an area as found; the light gets a number of its own, which is returned.
func (f *Finder) cutArea(area int32, c *softCut) (light int32) {
	a := &f.areas
	light = int32(len(a.list))
	a.list = append(a.list, c.sides[1])
	a.list[area].moments, a.list[area].all = c.sides[0].moments, c.sides[0].all
	for i, l := range a.label {
		if l == area && c.along(&f.planes, i) >= c.cut {
			a.label[i] = light
		}
	}
	return light
}

// recut moves a soft edge between the sides of family k to where the colour is halfway
// between them; what doesn't hang together with the other side stays. band is the edge's.
func (m *familyMeter) recut(k int, band edgeBand) {
	light, shadow := mapRole(k, lightSide), mapRole(k, shadowSide)
	way := m.halfway(m.cells[light], m.cells[shadow])
	front := slices.Concat(band[band.reach()+1], band[band.reach()-1])
	for len(front) > 0 {
		var next []int32
		for _, i := range front {
			was, is := m.marks[i], shadow
			if way.along(&m.planes, int(i)) >= way.cut {
				is = light
			}
			if was == is {
				continue
			}
			m.marks[i] = is
			m.around(i, func(n int32) {
				if m.marks[n] == was {
					next = append(next, n)
				}
			})
		}
		front = next
	}
	m.resort(light, shadow)
}

// resort puts the cells of two sides in order after their marks changed; it changes the
// marks back if that has left a side with less than half of its cells.
func (m *familyMeter) resort(light, shadow uint8) {
	sides := [2][]int32{m.cells[light], m.cells[shadow]}
	both := slices.Concat(sides[0], sides[1])
	m.cells[light], m.cells[shadow] = nil, nil
	for _, i := range both {
		m.cells[m.marks[i]] = append(m.cells[m.marks[i]], i)
	}
	if 2*len(m.cells[light]) >= len(sides[0]) && 2*len(m.cells[shadow]) >= len(sides[1]) {
		return
	}
	for k, side := range [2]uint8{light, shadow} {
		m.cells[side] = sides[k]
		for _, i := range sides[k] {
			m.marks[i] = side
		}
	}
}

// halfway returns the way from the colours of shadow cells to those of light cells, with its
// cut in the middle between the two sides' ends.
func (m *familyMeter) halfway(light, shadow []int32) (way softCut) {
	sums := [2]moments{}
	for side, cells := range [2][]int32{light, shadow} {
		for _, i := range cells {
			if m.planes.thin[i] == 0 {
				sums[side].addAt(&m.planes.flat, int(i))
			}
		}
	}
	way.axis = sums[0].toward(&sums[1])
	sums[0].join(&sums[1])
	way.mean = sums[0].mean()
	for _, i := range slices.Concat(light, shadow) {
		if m.planes.thin[i] == 0 {
			way.counts[way.bin(way.along(&m.planes, int(i)))]++
		}
	}
	way.cutHalfway()
	return way
}

// masses is the separation from which on two sides that run into each other are two masses: a
// ramp has 0.75, whatever its length, and one whose colours are bent a little more (our choice).
const masses = 0.76

// evenRamp is the separation of two sides that run evenly from end to end: a ramp has 0.75.
const evenRamp = 0.755

// cutSmooth cuts areas that run smoothly from a light to a shadow.
func (f *Finder) cutSmooth() {
	cuts, cut := f.softCuts(f.leastArea()), false
	for i := range cuts {
		c := &cuts[i]
		if c.ok && min(c.sides[0].n, c.sides[1].n) >= int64(f.leastArea()) && c.sides[1].mean().L-c.sides[0].mean().L >= leastSoft && c.sides[1].separation(&c.sides[0].moments) >= masses {
			f.cutArea(int32(i), c)
			cut = true
		}
	}
	if cut {
		f.remeasure()
	}
}
