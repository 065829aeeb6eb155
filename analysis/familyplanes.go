package analysis

import "math"

// cellUnitLab is the fixed point of familyPlanes: whole numbers add up the same in any order.
const cellUnitLab = 64

// familyPlanes are a picture's cells in L*a*b*.
type familyPlanes struct {
	raw, flat [3][]int32 // as they are, and smoothed; cellUnitLab to a unit
	thin      []uint8    // thinCell and the others
	depth     []int32    // see measureDepth
	noise     float64    // standard deviation of L* from cell to neighbour

	low, high, row []int32 // scratch
	sums           [4][]int32
	across         [4][]int32
	squares        []int64
	variance       []float32
	means          [3][]int32
}

// Why a cell counts in no side.
const (
	thinCell   = 1 << iota // too narrow for a side: lines, glints, the rims of forms
	bridgeCell             // in a transition between sides
	bandCell               // of an accent
	alienCell              // of a detail in a side
)

// labRow turns a row of linear light into L*a*b*.
func (p *familyPlanes) labRow(linear []uint16, first, count int) {
	w := &labWeights
	for i := first; i < first+count; i++ {
		c := linear[3*i:][:3]
		r, g, b := uint32(c[0]), uint32(c[1]), uint32(c[2])
		fx := labRoots.of(r*w[0][0] + g*w[0][1] + b*w[0][2])
		fy := labRoots.of(r*w[1][0] + g*w[1][1] + b*w[1][2])
		fz := labRoots.of(r*w[2][0] + g*w[2][1] + b*w[2][2])
		p.raw[0][i] = fixedLab(116*int64(fy) - 16*labUnit)
		p.raw[1][i] = fixedLab(500 * int64(fx-fy))
		p.raw[2][i] = fixedLab(200 * int64(fy-fz))
	}
}

// fixedLab turns a number in 1/labUnit into one in 1/cellUnitLab.
func fixedLab(v int64) int32 {
	const part = labUnit / cellUnitLab
	return int32((v + part/2) >> (labBits - 6))
}

// smooth fills the planes from the source.
func (f *FamilyFinder) smooth() {
	s, p := &f.source, &f.planes
	n := s.across * s.down
	for c := range p.raw {
		p.raw[c], p.flat[c] = resized(p.raw[c], n), resized(p.flat[c], n)
		p.means[c] = resized(p.means[c], n)
	}
	f.rows(s.down, func(y int) { p.labRow(s.linear, y*s.across, s.across) })
	p.noise = noiseOf(p.raw[0], s.left, s.across, s.down)
	f.markThin()
	for c := range p.raw {
		copy(p.flat[c], p.raw[c])
	}
	for range 2 {
		f.evenOut()
	}
}

// noiseOf estimates the standard deviation of noise from the median response of the operator
// 1 -2 1, -2 4 -2, 1 -2 1, which ignores plane slopes (Immerkaer, Fast noise variance
// estimation, 1996: its deviation is 6 times the noise's), as L*.
func noiseOf(l []int32, left []uint8, across, down int) float64 {
	var counts [1024]int
	total := 0
	for y := 1; y < down-1; y++ {
		for x := 1; x < across-1; x++ {
			i := y*across + x
			if left[i] != 0 {
				continue
			}
			a, b, c := l[i-across-1:][:3], l[i-1:][:3], l[i+across-1:][:3]
			v := a[0] - 2*a[1] + a[2] - 2*b[0] + 4*b[1] - 2*b[2] + c[0] - 2*c[1] + c[2]
			counts[min(max(v, -v)/8, 1023)]++
			total++
		}
	}
	if total == 0 {
		return 0
	}
	below := 0
	for i, n := range counts {
		below += n
		if 2*below >= total {
			if i == 0 {
				return 0
			}
			const medianOfNormal = 0.6745 // of a normal distribution's absolute values, by its deviation
			return (float64(i) + 0.5) * 8 / cellUnitLab / 6 / medianOfNormal
		}
	}
	return 0
}

// thinReach is half the width of what counts as thin, in cells: 2 finds what is up to 4 wide.
const thinReach = 2

// markThin marks cells that are much darker, or lighter, than what lies on both sides of
// them: where closing, or opening, the lightness with a square changes it much (the top-hats
// of mathematical morphology).
func (f *FamilyFinder) markThin() {
	s, p := &f.source, &f.planes
	w, h := s.across, s.down
	n := w * h
	p.thin, p.low, p.high, p.row = resized(p.thin, n), resized(p.low, n), resized(p.high, n), resized(p.row, n)
	limit := int32(cellUnitLab * (6 + 3*p.noise))
	pass := func(dst, src []int32, pick func(a, b int32) int32) {
		f.rows(h, func(y int) {
			in, out := src[y*w:][:w], p.row[y*w:][:w]
			for x := range out {
				v := in[x]
				for k := max(0, x-thinReach); k <= min(w-1, x+thinReach); k++ {
					v = pick(v, in[k])
				}
				out[x] = v
			}
		})
		f.rows(h, func(y int) {
			out := dst[y*w:][:w]
			copy(out, p.row[y*w:][:w])
			for k := max(0, y-thinReach); k <= min(h-1, y+thinReach); k++ {
				for x, v := range p.row[k*w:][:w] {
					out[x] = pick(out[x], v)
				}
			}
		})
	}
	larger := func(a, b int32) int32 { return max(a, b) }
	smaller := func(a, b int32) int32 { return min(a, b) }
	pass(p.high, p.raw[0], larger)
	pass(p.high, p.high, smaller)
	pass(p.low, p.raw[0], smaller)
	pass(p.low, p.low, larger)
	f.rows(h, func(y int) {
		for i := y * w; i < (y+1)*w; i++ {
			p.thin[i] = 0
			if l := p.raw[0][i]; p.high[i]-l > limit || l-p.low[i] > limit {
				p.thin[i] = 1
			}
		}
	})
}

// window is the side of the square whose evenness evenOut compares.
const window = 5

// evenOut sets each cell to the mean of the most even of nine squares that hold it
// (maximum homogeneity smoothing: Nagao, Matsuyama, Edge preserving smoothing, 1979). It
// smooths grain and sharpens edges. Thin and left-out cells count in no square.
func (f *FamilyFinder) evenOut() {
	s, p := &f.source, &f.planes
	w, h := s.across, s.down
	n := w * h
	for c := range p.sums {
		p.sums[c] = resized(p.sums[c], n)
	}
	p.squares, p.variance = resized(p.squares, n), resized(p.variance, n)
	const reach = window / 2
	f.rows(h, func(y int) { // sums across
		for x := range w {
			var l, a, b, count int32
			var square int64
			for k := max(0, x-reach); k <= min(w-1, x+reach); k++ {
				i := y*w + k
				if p.thin[i]|s.left[i] != 0 {
					continue
				}
				u, v, t := p.flat[0][i], p.flat[1][i], p.flat[2][i]
				l, a, b, count = l+u, a+v, b+t, count+1
				square += int64(u)*int64(u) + int64(v)*int64(v) + int64(t)*int64(t)
			}
			i := y*w + x
			p.sums[0][i], p.sums[1][i], p.sums[2][i], p.sums[3][i], p.squares[i] = l, a, b, count, square
		}
	})
	f.rows(h, func(y int) { // then down
		for x := range w {
			var l, a, b, count int32
			var square int64
			for k := max(0, y-reach); k <= min(h-1, y+reach); k++ {
				i := k*w + x
				l, a, b, count, square = l+p.sums[0][i], a+p.sums[1][i], b+p.sums[2][i], count+p.sums[3][i], square+p.squares[i]
			}
			i := y*w + x
			p.variance[i] = math.MaxFloat32
			if count > window {
				n := int64(count)
				spread := n*square - int64(l)*int64(l) - int64(a)*int64(a) - int64(b)*int64(b)
				p.variance[i] = float32(float64(spread) / float64(n*n))
				p.means[0][i], p.means[1][i], p.means[2][i] = rounded(l, count), rounded(a, count), rounded(b, count)
			}
		}
	})
	f.rows(h, func(y int) {
		for x := range w {
			at := y*w + x
			best := p.variance[at]
			for v := y - reach; v <= y+reach; v += reach {
				for u := x - reach; u <= x+reach; u += reach {
					if v >= 0 && v < h && u >= 0 && u < w && p.variance[v*w+u] < best {
						best, at = p.variance[v*w+u], v*w+u
					}
				}
			}
			if best < math.MaxFloat32 {
				for c := range p.flat {
					p.flat[c][y*w+x] = p.means[c][at]
				}
			}
		}
	})
}

func rounded(sum, count int32) int32 {
	if sum < 0 {
		return -((-sum + count/2) / count)
	}
	return (sum + count/2) / count
}
