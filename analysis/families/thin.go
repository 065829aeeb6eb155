package families

import "app.tonedesk/analysis/internal/pool"

// What is thin is up to 2 thinReach cells wide, and differs by at least thinLeast in L* from
// both sides; grain adds thinNoise times its deviation (found on drawn scenes; no source).
const (
	thinReach = 2
	thinLeast = 6.0
	thinNoise = 3.0
)

// markThin marks cells that are much darker, or lighter, than what lies on both sides of
// them: where closing, or opening, the lightness with a square changes it much (the top hats
// of MORPH).
func (f *Finder) markThin() {
	p, n := &f.planes, f.source.across*f.source.down
	p.thin, p.low, p.high = pool.Resized(p.thin, n), pool.Resized(p.low, n), pool.Resized(p.high, n)
	f.square(p.high, p.raw[0], 1)
	f.square(p.high, p.high, -1)
	f.square(p.low, p.raw[0], -1)
	f.square(p.low, p.low, 1)
	limit := int32(cellLab * (thinLeast + thinNoise*p.noise))
	for i, l := range p.raw[0] {
		p.thin[i] = 0
		if p.high[i]-l > limit || l-p.low[i] > limit {
			p.thin[i] = thinCell
		}
	}
}

// square sets each cell of dst to the lightest of a square of src around it, for way 1, or to
// the darkest, for way -1. dst may be src.
func (f *Finder) square(dst, src []int32, way int32) {
	w, h := f.source.across, f.source.down
	f.planes.row = pool.Resized(f.planes.row, w*h)
	row := f.planes.row // way times the lightness: the greatest is wanted
	f.rows(h, func(y int) {
		in, out := src[y*w:][:w], row[y*w:][:w]
		for x := range out {
			near := in[max(0, x-thinReach):min(w, x+thinReach+1)]
			v := way * near[0]
			for _, l := range near[1:] {
				v = max(v, way*l)
			}
			out[x] = v
		}
	})
	f.rows(h, func(y int) {
		out := dst[y*w:][:w]
		copy(out, row[y*w:][:w])
		for k := max(0, y-thinReach); k <= min(h-1, y+thinReach); k++ {
			for x, l := range row[k*w:][:len(out)] {
				out[x] = max(out[x], l)
			}
		}
		for x := range out {
			out[x] *= way
		}
	})
}

// Responses of noiseOf's operator are counted in so many steps of so much, in 1/cellLab of L*.
const (
	noiseSteps = 1024
	noiseStep  = 8
)

// noiseOf estimates the standard deviation of grain, in L*, from the median response of the
// operator 1 -2 1, -2 4 -2, 1 -2 1: slopes don't count, and edges and lines are the smaller
// part of a picture (NOISE). The lightness is in 1/cellLab; what is left out doesn't count.
func noiseOf(lightness []int32, left []uint8, across, down int) float64 {
	var counts [noiseSteps]int
	total := 0
	for y := 1; y < down-1; y++ {
		for x := 1; x < across-1; x++ {
			i := y*across + x
			if left[i] != 0 {
				continue
			}
			a, b, c := lightness[i-across-1:][:3], lightness[i-1:][:3], lightness[i+across-1:][:3]
			v := a[0] - 2*a[1] + a[2] - 2*b[0] + 4*b[1] - 2*b[2] + c[0] - 2*c[1] + c[2]
			counts[min(max(v, -v)/noiseStep, noiseSteps-1)]++
			total++
		}
	}
	median, below := 0, counts[0]
	for 2*below < total {
		median++
		below += counts[median]
	}
	if median == 0 { // none, as far as can be told
		return 0
	}
	const (
		gain   = 6      // of the operator: the root of its squared weights
		normal = 0.6745 // the median of a normal distribution's size, by its deviation
	)
	return (float64(median) + 0.5) * noiseStep / cellLab / gain / normal
}
