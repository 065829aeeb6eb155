package focus

import (
	"math"

	"app.tonedesk/analysis/internal/pool"
)

// kernel is half of a Gaussian of a sum of 1: its middle, and what lies to either side.
type kernel []float32

// kernelOf returns the Gaussian of a width, cells, to three times it.
func kernelOf(sigma float64) kernel {
	reach := int(math.Ceil(3 * sigma))
	k, sum := make(kernel, reach+1), 0.0
	at := func(i int) float64 { return math.Exp(-float64(i*i) / (2 * sigma * sigma)) }
	for i := -reach; i <= reach; i++ {
		sum += at(i)
	}
	for i := range k {
		k[i] = float32(at(i) / sum)
	}
	return k
}

// blur blurs a plane; what lies outside of it is 0. Cells at the same distance are added to each
// other first, so that a mirrored picture is blurred to exactly the mirrored one.
func (f *Finder) blur(dst, src []float32, k kernel) {
	f.half = pool.Resized(f.half, len(src))
	half, w, h := f.half, f.w, f.h
	f.do(func(from, to int) {
		for y := from; y < to; y++ {
			alongRow(half[y*w:][:w], src[y*w:][:w], k)
		}
	})
	f.do(func(from, to int) {
		for y := from; y < to; y++ {
			out := dst[y*w:][:w]
			for x, v := range half[y*w:][:w] {
				out[x] = k[0] * v
			}
			for i := 1; i < len(k); i++ {
				switch above, below := y-i, y+i; {
				case above >= 0 && below < h:
					addBoth(out, half[above*w:][:w], half[below*w:][:w], k[i])
				case above >= 0:
					addOne(out, half[above*w:][:w], k[i])
				case below < h:
					addOne(out, half[below*w:][:w], k[i])
				}
			}
		}
	})
}

// alongRow blurs a row.
func alongRow(out, row []float32, k kernel) {
	for x, v := range row {
		out[x] = k[0] * v
	}
	for i := 1; i < min(len(k), len(row)); i++ {
		n := len(row)
		if n > 2*i {
			addBoth(out[i:n-i], row[:n-2*i], row[2*i:], k[i])
		}
		// where only one of the two lies inside
		addOne(out[:min(i, n-i)], row[i:], k[i])
		addOne(out[max(n-i, i):], row[max(n-2*i, 0):], k[i])
	}
}

func addBoth(out, a, b []float32, weight float32) {
	a, b = a[:len(out)], b[:len(out)]
	for i := range out {
		out[i] += weight * (a[i] + b[i])
	}
}

func addOne(out, a []float32, weight float32) {
	a = a[:len(out)]
	for i := range out {
		out[i] += weight * a[i]
	}
}
