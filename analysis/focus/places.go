package focus

import (
	"cmp"
	"math"
	"slices"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// steps is how finely contrast is told: what is nearer is the same, so that the last bits of a sum
// decide nothing.
const steps = 1 << 16

// strength returns the contrast around a cell, told so.
func (p *planes) strength(i int) float64 {
	return math.Round(steps*math.Sqrt(float64(max(p.all[i], 0)))) / steps
}

// findPlaces lists the strongest places, each two radii from the others, so that no two discs
// overlap. Of those as strong the first as one reads counts: the upper one, then the left one.
func (f *Found) findPlaces() {
	peaks := f.planes.peaks(f.options.LeastContrast)
	slices.SortStableFunc(peaks, func(i, j int) int {
		return cmp.Or(cmp.Compare(f.planes.strength(j), f.planes.strength(i)), cmp.Compare(i, j))
	})
	var taken []int
	for _, i := range peaks {
		far := !slices.ContainsFunc(taken, func(j int) bool { return f.planes.apart(i, j) < 2*f.radius })
		if far && len(taken) < MostPlaces {
			taken = append(taken, i)
			f.Places = append(f.Places, f.placeAt(i))
		}
	}
}

// peaks returns the cells that none of their neighbours outdoes, from the upper left.
func (p *planes) peaks(least float64) (peaks []int) {
	strength := make([]float64, len(p.all)) // below 0 where nothing counts
	for i := range strength {
		if strength[i] = -1; p.counts[i] {
			strength[i] = p.strength(i)
		}
	}
	for y := range p.h {
		for x := range p.w {
			if i := y*p.w + x; p.counts[i] && strength[i] >= least && !p.outdone(x, y, strength) {
				peaks = append(peaks, i)
			}
		}
	}
	return peaks
}

// outdone reports whether a neighbour is stronger.
func (p *planes) outdone(x, y int, strength []float64) bool {
	own := strength[y*p.w+x]
	for v := max(y-1, 0); v <= min(y+1, p.h-1); v++ {
		for _, of := range strength[v*p.w+max(x-1, 0) : v*p.w+min(x+1, p.w-1)+1] {
			if of > own {
				return true
			}
		}
	}
	return false
}

// apart is how far two cells are apart, cells.
func (p *planes) apart(i, j int) float64 {
	return math.Hypot(float64(i%p.w-j%p.w), float64(i/p.w-j/p.w))
}

// share returns where the middle of a cell lies, in shares of width and height.
func (p *planes) share(i int) (x, y float64) {
	return (float64(i%p.w) + 0.5) / float64(p.w), (float64(i/p.w) + 0.5) / float64(p.h)
}

// around calls do for the cells that count within a reach of a cell, in rows.
func (p *planes) around(i int, reach float64, do func(j int, apart float64)) {
	n, x, y := int(math.Ceil(reach)), i%p.w, i/p.w
	for v := max(y-n, 0); v <= min(y+n, p.h-1); v++ {
		for u := max(x-n, 0); u <= min(x+n, p.w-1); u++ {
			if j := v*p.w + u; p.counts[j] {
				if d := p.apart(i, j); d <= reach {
					do(j, d)
				}
			}
		}
	}
}

// placeAt measures the place around a cell.
func (f *Found) placeAt(i int) Place {
	p := &f.planes
	place := Place{Contrast: p.strength(i)}
	place.X, place.Y = p.share(i)
	width, sum := poolWidth(f.radius), 0.0
	var bright, chroma [Scales]float64
	var slopes [slopeLevels]float64
	p.around(i, 3*width, func(j int, apart float64) {
		weight := math.Exp(-apart * apart / (2 * width * width))
		sum += weight
		for s := range Scales {
			bright[s] += weight * float64(p.bright[s][j])
			chroma[s] += weight * float64(p.chroma[s][j])
		}
		for s := range slopes {
			slopes[s] += weight * float64(p.slopes[s][j])
		}
	})
	for s := range Scales {
		place.Lightness[s], place.Chroma[s] = math.Sqrt(bright[s]/sum), math.Sqrt(chroma[s]/sum)
	}
	place.EdgeWidth = f.edgeWidth(slopes, sum)
	place.Darker, place.Lighter = p.halves(i, f.radius)
	return place
}

// halves returns the mean light of what is darker than the mean in a disc, and of the rest.
func (p *planes) halves(i int, radius float64) (darker, lighter colour.RGB) {
	mean, n := 0.0, 0.0
	p.around(i, radius, func(j int, _ float64) { mean, n = mean+float64(p.l[j]), n+1 })
	mean /= n
	var sides [2]lightSum
	p.around(i, radius, func(j int, _ float64) {
		side := 0
		if float64(p.l[j]) >= mean {
			side = 1
		}
		sides[side].add(p.light[3*j:][:3])
	})
	if sides[0].cells == 0 {
		sides[0] = sides[1]
	}
	return sides[0].code(), sides[1].code()
}

// lightSum adds up light.
type lightSum struct {
	light [3]int
	cells int
}

func (s *lightSum) add(linear []uint16) {
	for c, v := range linear {
		s.light[c] += int(v)
	}
	s.cells++
}

// code returns the nearest 8-bit colour of the mean.
func (s *lightSum) code() colour.RGB {
	code := func(c int) uint8 { return fixed.CodeOf(uint16((s.light[c] + s.cells/2) / s.cells)) }
	return colour.RGB{R: code(0), G: code(1), B: code(2)}
}
