package analysis

import "math"

// A smooth area is split where its colours gather in two masses.
const (
	splitBins  = 128
	splitFrom  = 0.80 // share of the variance that the two masses hold; a ramp's is 0.75
	splitWhole = 0.70 // of each mass, its largest piece
	leastApart = 4.0  // L* between a light and a shadow
)

// splitSoft splits the areas that run smoothly from a light side into a shadow side.
func (f *FamilyFinder) splitSoft() {
	s := &f.source
	least := max(leastCells, int(areaPart*float64(s.counted)))
	members := f.members()
	for i := range members {
		if len(members[i]) >= 2*least && !f.background(int32(i)) {
			f.splitArea(int32(i), members[i], least)
		}
	}
}

// members lists the cells of each area.
func (f *FamilyFinder) members() [][]int32 {
	a := &f.areas
	m := make([][]int32, len(a.list))
	for i, l := range a.label {
		if l != noArea {
			m[l] = append(m[l], int32(i))
		}
	}
	return m
}

func (f *FamilyFinder) splitArea(area int32, cells []int32, least int) {
	p, a := &f.planes, &f.areas
	axis, mean, ok := f.mainAxis(cells)
	if !ok {
		return
	}
	along := func(i int32) float64 {
		d := 0.0
		for c := range axis {
			d += axis[c] * (float64(p.flat[c][i])/cellUnitLab - mean[c])
		}
		return d
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, i := range cells {
		if p.thin[i] == 0 {
			d := along(i)
			low, high = min(low, d), max(high, d)
		}
	}
	if high-low < leastApart {
		return
	}
	scale := (splitBins - 1) / (high - low)
	var counts [splitBins]int
	n := 0
	for _, i := range cells {
		if p.thin[i] == 0 {
			counts[int((along(i)-low)*scale)]++
			n++
		}
	}
	at, share := bestCut(counts[:], n)
	if share < splitFrom {
		return
	}
	cut := low + (float64(at)+1)/scale
	fresh := int32(len(a.list))
	a.list = append(a.list, familyArea{})
	for _, i := range cells {
		if along(i) >= cut {
			a.label[i] = fresh
		}
	}
}

// bestCut returns the bin after which to cut counts into two masses, and the share of the
// variance between them (OTSU).
func bestCut(counts []int, n int) (at int, share float64) {
	sum, square := 0.0, 0.0
	for i, c := range counts {
		sum += float64(i * c)
		square += float64(i * i * c)
	}
	total := square - sum*sum/float64(n)
	if total <= 0 {
		return 0, 0
	}
	below, part := 0.0, 0.0
	for i, c := range counts[:len(counts)-1] {
		below += float64(c)
		part += float64(i * c)
		above := float64(n) - below
		if below == 0 || above == 0 {
			continue
		}
		d := part/below - (sum-part)/above
		if v := below * above / float64(n) * d * d / total; v > share {
			at, share = i, v
		}
	}
	return at, share
}

// mainAxis returns the direction in which the cells' colours differ most, as a unit vector,
// and their mean.
func (f *FamilyFinder) mainAxis(cells []int32) (axis, mean [3]float64, ok bool) {
	p := &f.planes
	n := 0.0
	var sum [3]float64
	var cov [3][3]float64
	for _, i := range cells {
		if p.thin[i] != 0 {
			continue
		}
		n++
		var v [3]float64
		for c := range v {
			v[c] = float64(p.flat[c][i]) / cellUnitLab
			sum[c] += v[c]
		}
		for c := range v {
			for k := range v {
				cov[c][k] += v[c] * v[k]
			}
		}
	}
	if n < 2 {
		return axis, mean, false
	}
	for c := range sum {
		mean[c] = sum[c] / n
	}
	for c := range cov {
		for k := range cov {
			cov[c][k] = cov[c][k]/n - mean[c]*mean[k]
		}
	}
	axis = [3]float64{1, 0.1, 0.1}
	for range 30 {
		var next [3]float64
		size := 0.0
		for c := range next {
			for k := range axis {
				next[c] += cov[c][k] * axis[k]
			}
			size += next[c] * next[c]
		}
		if size < 1e-12 {
			return axis, mean, false
		}
		size = math.Sqrt(size)
		for c := range next {
			axis[c] = next[c] / size
		}
	}
	if axis[0] < 0 {
		for c := range axis {
			axis[c] = -axis[c]
		}
	}
	return axis, mean, true
}
