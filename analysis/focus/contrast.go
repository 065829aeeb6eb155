package focus

import (
	"math"
	"slices"
)

// veil is added to the local mean: the light that a display and the eye scatter over all of a
// picture. It is so large that black on middle grey, L* 50, weighs about as much as white on it (our
// choice; without it the darkest corner would have the strongest contrast of all).
const veil = 0.05

// contrastL is how many L* a contrast of 1 in luminance is at L* 50, by the derivative of CIE15's cube
// root: (L* + 16)/3.
const contrastL = (50.0 + 16) / 3

// slopeLevels is after how many of the blurs slopes are taken.
const slopeLevels = 2

// bands measures the contrast of all scales.
func (f *Finder) bands(p *planes) {
	n := f.w * f.h
	for i := range blurs {
		before, now := &f.mean[(i+1)%2], &f.mean[i%2]
		f.blurWeight(i)
		for c := range channels {
			if c == lightness && i >= slopeLevels {
				continue // slopes alone are of it
			}
			f.blur(f.levels[c], f.levels[c], blurs[i])
			f.divide(now[c], f.levels[c])
		}
		if i < slopeLevels {
			p.slopes[i] = make([]float32, n)
			f.slope(p.slopes[i], now[lightness], p.counts)
		}
		if i == 0 {
			p.l = append([]float32(nil), now[lightness]...)
			continue
		}
		p.bright[i-1], p.chroma[i-1] = make([]float32, n), make([]float32, n)
		f.band(p, i-1, before, now)
	}
}

// blurWeight blurs the share that counts, the next of the blurs.
func (f *Finder) blurWeight(i int) {
	if f.all && f.whole.of[i] != nil {
		copy(f.weight, f.whole.of[i])
		return
	}
	if f.blur(f.weight, f.weight, blurs[i]); f.all {
		f.whole.of[i] = slices.Clone(f.weight)
	}
}

// divide makes the mean of what counts of what was blurred.
func (f *Finder) divide(dst, src []float32) {
	f.do(func(from, to int) {
		for i := from * f.w; i < to*f.w; i++ {
			if dst[i] = 0; f.weight[i] > 0 {
				dst[i] = src[i] / f.weight[i]
			}
		}
	})
}

// band measures the contrast between two blurs: PELI90's of luminance, and that of a* and b*.
func (f *Finder) band(p *planes, scale int, fine, coarse *[channels][]float32) {
	bright, chroma := p.bright[scale], p.chroma[scale]
	f.do(func(from, to int) {
		for i := from * f.w; i < to*f.w; i++ {
			if !p.counts[i] {
				continue
			}
			mean := coarse[luminance][i]
			c := (fine[luminance][i] - mean) / (mean + veil)
			a, b := (fine[alongA][i]-coarse[alongA][i])/contrastL, (fine[alongB][i]-coarse[alongB][i])/contrastL
			bright[i], chroma[i] = c*c, a*a+b*b
		}
	})
}

// slope writes the squared slope of L*, cell by cell; 0 at what doesn't count and beside it.
func (f *Finder) slope(dst, l []float32, counts []bool) {
	f.do(func(from, to int) {
		for y := max(from, 1); y < min(to, f.h-1); y++ {
			for x := 1; x < f.w-1; x++ {
				i := y*f.w + x
				if counts[i] && counts[i-1] && counts[i+1] && counts[i-f.w] && counts[i+f.w] {
					across, down := (l[i+1]-l[i-1])/2, (l[i+f.w]-l[i-f.w])/2
					dst[i] = across*across + down*down
				}
			}
		}
	})
}

// gather adds up all contrast around each cell.
func (f *Finder) gather(p *planes, radius float64, o Options) {
	p.all = make([]float32, f.w*f.h)
	chroma := float32(o.ChromaWeight * o.ChromaWeight)
	f.do(func(from, to int) {
		for i := from * f.w; i < to*f.w; i++ {
			for s := range Scales {
				p.all[i] += (p.bright[s][i] + chroma*p.chroma[s][i]) / Scales
			}
		}
	})
	f.blur(p.all, p.all, kernelOf(poolWidth(radius)))
}

// poolWidth is the width of the Gaussian by which a place is weighed: 0.135 of the weight, exp(-2),
// lies beyond its radius.
func poolWidth(radius float64) float64 { return radius / 2 }

// leastRadius is that of a place in a small picture, cells: what the finest scale needs.
const leastRadius = 3

func radiusOf(w, h int, o Options) float64 { return max(leastRadius, o.Radius*float64(max(w, h))) }

// rootOfDifference is the width of the Gaussian that leads from one width to a larger one.
func rootOfDifference(to, from float64) float64 { return math.Sqrt(to*to - from*from) }
