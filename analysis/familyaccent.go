package analysis

import "math"

// What makes an accent (found on drawn scenes; no source, but that it is more saturated than
// both sides or turned in hue, which is common practice).
const (
	accentReach  = 16   // cells from the edge, at most
	accentChroma = 5.0  // C*ab above both sides
	accentTurn   = 10.0 // degrees beyond both sides' hues
	accentHasHue = 10.0 // C*ab from which a band's hue counts
	accentPart   = 0.5  // of the edge, from which on a band counts as there
)

// accent finds the band along the edge between the sides of family k, nil if there is none,
// and marks its cells.
func (f *FamilyFinder) accent(marks []uint8, k int, family *Family, rules FamilyRules) *FamilyAccent {
	band := f.bandAround(marks, k)
	light, shadow := f.besideBand(&band)
	best, at := 0.0, -1
	var stands [2*accentReach + 1]float64
	for i := range band {
		if stands[i] = standsOut(f.meanLab(band[i]), light, shadow); stands[i] > best {
			best, at = stands[i], i
		}
	}
	if at < 0 || best < 1 {
		return nil
	}
	first, last := at, at
	for first > 0 && stands[first-1] > best/2 {
		first--
	}
	for last+1 < len(stands) && stands[last+1] > best/2 {
		last++
	}
	if last-first+1 > 2*accentReach*3/4 {
		return nil
	}
	var cells []int32
	out := 0
	for _, i := range band[at] {
		if standsOut(f.labOf(i), light, shadow) > best/3 {
			out++
		}
	}
	if float64(out) < accentPart*float64(len(band[at])) {
		return nil
	}
	for i := first; i <= last; i++ {
		for _, c := range band[i] {
			if standsOut(f.labOf(c), light, shadow) > best/2 {
				cells = append(cells, c)
			}
		}
	}
	if len(cells) == 0 {
		return nil
	}
	for _, c := range cells {
		marks[c] = mapRole(k, accentBand)
		f.planes.thin[c] |= bandCell
	}
	spot := f.meanSpot(cells)
	f.pin(&spot, cells[len(cells)/2])
	return family.accentOf(spot, rules)
}

// besideBand returns the colours of the two sides next to a band, from the outer half of
// what lies in reach.
func (f *FamilyFinder) besideBand(band *[2*accentReach + 1][]int32) (light, shadow Lab) {
	reach := 0
	for d := 1; d <= accentReach; d++ {
		if len(band[accentReach+d]) > 0 && len(band[accentReach-d]) > 0 {
			reach = d
		}
	}
	var lights, shadows []int32
	for d := reach/2 + 1; d <= reach; d++ {
		lights, shadows = append(lights, band[accentReach+d]...), append(shadows, band[accentReach-d]...)
	}
	return f.meanLab(lights), f.meanLab(shadows)
}

// standsOut says how much a colour between two sides is more saturated than both, or turned
// beyond both: 1 for just enough to be an accent.
func standsOut(c, light, shadow Lab) float64 {
	chroma := c.Chroma()
	out := (chroma - max(light.Chroma(), shadow.Chroma())) / accentChroma
	if chroma >= accentHasHue && light.Chroma() >= accentHasHue && shadow.Chroma() >= accentHasHue {
		whole := turnBetween(light.Hue(), shadow.Hue())
		turn := turnBetween(light.Hue(), c.Hue())
		beyond := max(-turn, turn-whole)
		if whole < 0 {
			beyond = max(turn, whole-turn)
		}
		out = max(out, min(beyond, 60)/accentTurn*min(chroma/accentHasHue-0.5, 1))
	}
	return out
}

// bandAround lists the cells of family k by their distance from the edge between its sides:
// accentReach + d on the light side, accentReach - d on the shadow side, d from 1.
func (f *FamilyFinder) bandAround(marks []uint8, k int) (band [2*accentReach + 1][]int32) {
	s, w, h := &f.source, f.source.across, f.source.down
	l, d := mapRole(k, lightSide), mapRole(k, shadowSide)
	far := make([]int8, s.across*s.down)
	neighbours := func(i int32, each func(k int32)) {
		x, y := int(i)%w, int(i)/w
		if x > 0 {
			each(i - 1)
		}
		if x+1 < w {
			each(i + 1)
		}
		if y > 0 {
			each(i - int32(w))
		}
		if y+1 < h {
			each(i + int32(w))
		}
	}
	var front []int32
	for i, m := range marks {
		if m != l && m != d {
			continue
		}
		touches := false
		neighbours(int32(i), func(k int32) { touches = touches || marks[k] != m && (marks[k] == l || marks[k] == d) })
		if touches {
			front = append(front, int32(i))
			far[i] = 1
		}
	}
	reach := min(accentReach, max(4, int(math.Sqrt(float64(len(front)))*2)))
	for step := 1; step <= reach; step++ {
		var next []int32
		for _, i := range front {
			at := accentReach + step
			if marks[i] == d {
				at = accentReach - step
			}
			if !f.isLine(i) {
				band[at] = append(band[at], i)
			}
			neighbours(i, func(k int32) {
				if far[k] == 0 && marks[k] == marks[i] {
					far[k] = int8(step + 1)
					next = append(next, k)
				}
			})
		}
		front = next
	}
	return band
}

// isLine reports whether a cell is thin and dark, and not very saturated.
func (f *FamilyFinder) isLine(i int32) bool {
	p := &f.planes
	return p.thin[i]&thinCell != 0 && p.high[i]-p.raw[0][i] > lineDarker
}

func (f *FamilyFinder) labOf(i int32) Lab {
	r := &f.planes.raw
	return Lab{float64(r[0][i]) / cellUnitLab, float64(r[1][i]) / cellUnitLab, float64(r[2][i]) / cellUnitLab}
}

func (f *FamilyFinder) meanLab(cells []int32) Lab {
	var sum [3]int64
	for _, i := range cells {
		for c := range sum {
			sum[c] += int64(f.planes.raw[c][i])
		}
	}
	n := float64(max(len(cells), 1)) * cellUnitLab
	return Lab{float64(sum[0]) / n, float64(sum[1]) / n, float64(sum[2]) / n}
}

// meanSpot reads the mean of cells in linear light.
func (f *FamilyFinder) meanSpot(cells []int32) Spot {
	var sum [3]uint64
	for _, i := range cells {
		for c := range sum {
			sum[c] += uint64(f.source.linear[3*int(i)+c])
		}
	}
	n := float64(len(cells)) * linearWhite
	return spotOfLight(float64(sum[0])/n, float64(sum[1])/n, float64(sum[2])/n)
}
