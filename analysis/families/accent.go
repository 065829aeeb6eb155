package families

import (
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// What makes an accent: a band between two sides that is more saturated than both, or turned
// in hue (common practice, no source); by how much was found on drawn scenes, no source.
const (
	accentReach  = 16   // cells from the edge, at most, of a narrow band
	wideReach    = 48   // and of a wide one
	accentChroma = 5.0  // C*ab above both sides
	accentTurn   = 10.0 // degrees of hab beyond both sides' hues
	accentHue    = 10.0 // C*ab from which a hue counts
	accentPart   = 0.5  // of the edge, from which on a band counts as there
)

// edgeBand lists cells by their distance from the edge between two sides: reach + d on the
// light side, reach - d on the shadow side, d from 1.
type edgeBand [][]int32

// reach returns how far from the edge a band may go.
func (band edgeBand) reach() int { return len(band) / 2 }

// runsAlong reports whether as many cells lie at a place of a wide band as it takes to run along
// the edge: what is further away than a side is deep are corners of it.
func (band edgeBand) runsAlong(at int) bool {
	edge := band.reach() + 1
	if at < band.reach() {
		edge -= 2
	}
	return band.reach() == accentReach || float64(len(band[at])) >= accentPart*float64(len(band[edge]))
}

// accent reads the band along the edge between the sides of family k, and marks its cells;
// nil if there is none.
func (m *familyMeter) accent(k int, band edgeBand) *analysis.Spot {
	light, shadow := band.beside(m)
	stands := make([]float64, len(band))
	at := 0
	for i := range band {
		if !band.runsAlong(i) {
			continue
		}
		if stands[i] = standsOut(m.meanLab(band[i]), light, shadow); stands[i] > stands[at] {
			at = i
		}
	}
	best := stands[at]
	if best < 1 || float64(len(m.standing(band[at], best/3, light, shadow))) < accentPart*float64(len(band[at])) {
		return nil
	}
	first, last := at, at
	for first > 0 && stands[first-1] > best/2 {
		first--
	}
	for last+1 < len(stands) && stands[last+1] > best/2 {
		last++
	}
	cells := m.standing(slices.Concat(band[first:last+1]...), best/2, light, shadow)
	if len(cells) == 0 {
		return nil
	}
	pure := m.purest(cells, light, shadow)
	spot := m.meanSpot(pure)
	if own := setOf(cells); !isAccent(spot.Lab, m.sideWithout(mapRole(k, lightSide), own), m.sideWithout(mapRole(k, shadowSide), own)) ||
		m.thirdAreas(k, own) > accentThird || float64(m.elsewhere(k, spot.Lab)) > accentElsewhere*float64(len(own)) {
		return nil
	}
	for _, c := range cells {
		m.marks[c] = mapRole(k, accentBand)
	}
	m.pin(&spot, pure[len(pure)/2])
	return &spot
}

// An accent differs from both sides so that it is seen as a colour of its own, and lies between
// them in lightness or near: what is far lighter or darker than both is something else. It lies
// between its two sides: what borders a third area along much of its outline belongs there (found
// on drawn scenes; no source, but that two colours are told apart well from here on).
const (
	accentApart  = 8.0  // CIEDE2000 from each side, at least
	accentBeyond = 15.0 // L* lighter than the light or darker than the shadow, at most
	accentThird  = 0.4  // of its outline on third areas, at most
	// accentElsewhere is how many times its cells have its colour in other things, at most: what has
	// more is a piece of another local colour that lies between the two sides.
	accentElsewhere = 2.0
)

// isAccent reports whether a colour between two sides may be an accent.
func isAccent(c, light, shadow colour.Lab) bool {
	return min(colour.CIEDE2000(c, light), colour.CIEDE2000(c, shadow)) > accentApart &&
		c.L < light.L+accentBeyond && c.L > shadow.L-accentBeyond
}

func setOf(cells []int32) map[int32]bool {
	set := make(map[int32]bool, len(cells))
	for _, i := range cells {
		set[i] = true
	}
	return set
}

// sideWithout returns the mean colour of the side marked mark without some cells and what counts
// in no side: what lies next to a wide band may be the band itself.
func (m *familyMeter) sideWithout(mark uint8, out map[int32]bool) colour.Lab {
	var cells []int32
	for _, i := range m.cells[mark] {
		if m.planes.thin[i] == 0 && !out[i] {
			cells = append(cells, i)
		}
	}
	return m.meanLab(cells)
}

// thirdAreas returns the part of the outline of cells of family k that lies on other areas.
func (m *familyMeter) thirdAreas(k int, own map[int32]bool) float64 {
	third, outline := 0, 0
	for i := range own {
		m.around(i, func(n int32) {
			if own[n] {
				return
			}
			outline++
			if !ofFamily(m.marks[n], k) {
				third++
			}
		})
	}
	return part(third, outline)
}

// elsewhere returns how many cells there are in areas of a colour that are not of family k.
func (m *familyMeter) elsewhere(k int, c colour.Lab) (cells int) {
	for i := range m.areas.list {
		r := &m.areas.list[i]
		if r.n > 0 && !ofFamily(m.role[i], k) && squareApart(r.mean(), c) <= oneColour*oneColour {
			cells += r.all
		}
	}
	return cells
}

// purePart of what its purest tenth stands out by is what a cell has to stand out by to show
// an accent's own colour; less is mixed with what lies beside it (found on drawn scenes; no
// source).
const purePart = 0.85

// purest returns those cells of an accent that are least mixed with the sides.
func (m *familyMeter) purest(cells []int32, light, shadow colour.Lab) (pure []int32) {
	stands := make([]float64, len(cells))
	for k, i := range cells {
		stands[k] = standsOut(labAt(&m.planes.raw, i), light, shadow)
	}
	sorted := slices.Sorted(slices.Values(stands))
	least := purePart * sorted[9*len(sorted)/10]
	for k, i := range cells {
		if stands[k] >= least {
			pure = append(pure, i)
		}
	}
	return pure
}

// standing returns those cells that stand out by more than least.
func (m *familyMeter) standing(cells []int32, least float64, light, shadow colour.Lab) (standing []int32) {
	for _, i := range cells {
		if standsOut(labAt(&m.planes.raw, i), light, shadow) > least {
			standing = append(standing, i)
		}
	}
	return standing
}

// beside returns the colours of the two sides next to a band: those of the outer half of
// what lies in reach.
func (band edgeBand) beside(m *familyMeter) (light, shadow colour.Lab) {
	most, reach := band.reach(), 0
	for d := 1; d <= most; d++ {
		if len(band[most+d]) > 0 && len(band[most-d]) > 0 {
			reach = d
		}
	}
	outer := func(way int) colour.Lab {
		var cells []int32
		for d := reach/2 + 1; d <= reach; d++ {
			for _, i := range band[most+way*d] {
				if !m.darkLine(i) {
					cells = append(cells, i)
				}
			}
		}
		return m.meanLab(cells)
	}
	return outer(1), outer(-1)
}

// softStep is the part of the way from one side to the other that lies within two cells of
// a soft edge, at most.
const softStep = 0.6

// soft reports whether one side runs softly into the other.
func (band edgeBand) soft(m *familyMeter) bool {
	light, shadow := band.beside(m)
	near := m.meanLab(band[band.reach()+2]).L - m.meanLab(band[band.reach()-2]).L
	return near < softStep*(light.L-shadow.L)
}

// standsOut says how much a colour between two sides is more saturated than both, or turned
// beyond both: 1 for just enough to be an accent.
func standsOut(c, light, shadow colour.Lab) float64 {
	chroma := c.Chroma()
	out := (chroma - max(light.Chroma(), shadow.Chroma())) / accentChroma
	if chroma >= accentHue && light.Chroma() >= accentHue && shadow.Chroma() >= accentHue {
		whole := TurnBetween(light.Hue(), shadow.Hue())
		turn := TurnBetween(light.Hue(), c.Hue())
		beyond := max(-turn, turn-whole)
		if whole < 0 {
			beyond = max(turn, whole-turn)
		}
		out = max(out, min(beyond, 60)/accentTurn*min(chroma/accentHue-0.5, 1))
	}
	return out
}

// bandAround lists the cells along the edge between the sides of family k, up to so many cells
// from it; fewer along a short edge.
func (m *familyMeter) bandAround(k, most int) edgeBand {
	band := make(edgeBand, 2*most+1)
	shadow := mapRole(k, shadowSide)
	front := m.edgeCells(k)
	reach := max(4, int(2*math.Sqrt(float64(len(front)))))
	if most > accentReach {
		reach = len(front) / 2
	}
	for d := 1; d <= min(reach, most); d++ {
		var next []int32
		for _, i := range front {
			at := most + d
			if m.marks[i] == shadow {
				at = most - d
			}
			band[at] = append(band[at], i)
			m.around(i, func(k int32) {
				if m.seen[k] != m.turn && m.marks[k] == m.marks[i] {
					m.seen[k] = m.turn
					next = append(next, k)
				}
			})
		}
		front = next
	}
	m.dropLines(band)
	return band
}

// edgeCells lists the cells of either side of family k that touch the other, and marks them, and
// no others, as seen.
func (m *familyMeter) edgeCells(k int) (front []int32) {
	m.turn++
	for _, mark := range [2]uint8{mapRole(k, lightSide), mapRole(k, shadowSide)} {
		for _, i := range m.cells[mark] {
			touches := false
			m.around(i, func(k int32) { touches = touches || m.marks[k] == otherSide(mark) })
			if touches {
				front = append(front, i)
				m.seen[i] = m.turn
			}
		}
	}
	return front
}

// dropLines takes the cells of dark lines off a band, but not those that stand out from both
// sides: an accent may be too dark, which is its fault, and isn't a line for it.
func (m *familyMeter) dropLines(band edgeBand) {
	light, shadow := band.beside(m)
	for at, cells := range band {
		band[at] = slices.DeleteFunc(cells, func(i int32) bool {
			return m.darkLine(i) && standsOut(labAt(&m.planes.raw, i), light, shadow) < 1
		})
	}
}

// darkLine reports whether a cell is thin and dark.
func (f *Finder) darkLine(i int32) bool {
	p := &f.planes
	return p.thin[i]&thinCell != 0 && p.high[i]-p.raw[0][i] > lineDarker
}

// around calls each for the four cells beside a cell.
func (f *Finder) around(i int32, each func(k int32)) {
	w, h := int32(f.source.across), int32(f.source.down)
	x, y := i%w, i/w
	if x > 0 {
		each(i - 1)
	}
	if x+1 < w {
		each(i + 1)
	}
	if y > 0 {
		each(i - w)
	}
	if y+1 < h {
		each(i + w)
	}
}
