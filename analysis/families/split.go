package families

const (
	splitBins = 512
	splitSpan = 160.0 // L*a*b*: the longest way between two colours that is told apart
)

// softCut is how a smooth area may be cut into a light and a shadow: where its colours, along
// the direction in which they differ most, gather in two masses.
type softCut struct {
	axis, mean [3]float64
	ok         bool
	counts     [splitBins]int
	cut        float64       // along the axis from the mean: the light lies beyond
	sides      [2]familyArea // shadow, light
	edge       int           // pairs of cells with one on each side
}

// along says how far a cell lies in the direction of the light.
func (c *softCut) along(p *familyPlanes, i int) float64 {
	d := 0.0
	for k := range c.axis {
		d += c.axis[k] * (float64(p.flat[k][i])/cellLab - c.mean[k])
	}
	return d
}

func (c *softCut) bin(d float64) int {
	return min(max(int((d/splitSpan+0.5)*splitBins), 0), splitBins-1)
}

// cutHalfway sets the cut in the middle between the counts' ends.
func (c *softCut) cutHalfway() {
	low, high := endsOf(c.counts[:])
	c.cut = ((low+high+1)/2/splitBins - 0.5) * splitSpan
}

// softCuts finds the best cut of every area that is large enough for two sides.
func (f *Finder) softCuts(least int) []softCut {
	a, p := &f.areas, &f.planes
	cuts := make([]softCut, len(a.list))
	for i := range cuts {
		if r := &a.list[i]; !r.ground && r.all >= 2*least {
			c := &cuts[i]
			c.mean = r.mean()
			c.axis, c.ok = r.colour.mainAxis()
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
	side := make([]int8, len(a.label))
	for i, l := range a.label {
		side[i] = -1
		if l == noArea || !cuts[l].ok {
			continue
		}
		c := &cuts[l]
		if side[i] = 0; c.along(p, i) >= c.cut {
			side[i] = 1
		}
		s := &c.sides[side[i]]
		f.addCell(s, i)
		f.around(int32(i), func(k int32) {
			switch {
			case a.label[k] != l:
				s.outline++
			case int(k) < i && side[k] != side[i]:
				c.edge++
			}
		})
	}
}

// endsOf returns the bins at which the counts' lowest and highest twentieth end: colours of
// the two sides, of whatever sizes they are.
func endsOf(counts []int) (low, high float64) {
	n := 0
	for _, c := range counts {
		n += c
	}
	below := 0
	low = -1
	for i, c := range counts {
		below += c
		if low < 0 && 20*below >= n {
			low = float64(i)
		}
		if 20*below >= 19*n {
			return low, float64(i)
		}
	}
	return low, low
}

// cutArea cuts an area as found; the light gets a number of its own, which is returned.
func (f *Finder) cutArea(area int32, c *softCut) (light int32) {
	a := &f.areas
	light = int32(len(a.list))
	a.list = append(a.list, c.sides[1])
	a.list[area].colour, a.list[area].all = c.sides[0].colour, c.sides[0].all
	for i, l := range a.label {
		if l == area && c.along(&f.planes, i) >= c.cut {
			a.label[i] = light
		}
	}
	return light
}
