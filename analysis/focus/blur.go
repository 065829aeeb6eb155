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
	reach, w, h := len(k)-1, f.w, f.h
	f.half, f.wide = pool.Resized(f.half, (h+2*reach)*w), pool.Resized(f.wide, (w+2*reach)*h)
	half, wide := f.half, f.wide // half has rows of nothing above and below, wide has cells of nothing at the sides
	clear(half[:reach*w])
	clear(half[(reach+h)*w:])
	f.do(func(from, to int) {
		for y := from; y < to; y++ {
			row := wide[y*(w+2*reach):][:w+2*reach]
			clear(row[:reach])
			copy(row[reach:], src[y*w:][:w])
			clear(row[reach+w:])
			k.across(half[(reach+y)*w:][:w], row, 1)
		}
	})
	f.do(func(from, to int) {
		for y := from; y < to; y++ {
			k.across(dst[y*w:][:w], half[y*w:], w)
		}
	})
}

// across weighs what lies so many steps to either side of each of some cells; in begins as many steps
// before the first as the kernel reaches. Four pairs at a time: so the sum is read and written
// less often, and is the same.
func (k kernel) across(out, in []float32, step int) {
	middle := (len(k) - 1) * step
	for x, v := range in[middle:][:len(out)] {
		out[x] = k[0] * v
	}
	pair := func(i int) (before, after []float32) { return in[middle-i*step:], in[middle+i*step:] }
	i := 1
	for ; i+3 < len(k); i += 4 {
		a, b := pair(i)
		c, d := pair(i + 1)
		e, f := pair(i + 2)
		g, h := pair(i + 3)
		addFour(out, [8][]float32{a, b, c, d, e, f, g, h}, [4]float32(k[i:]))
	}
	for ; i < len(k); i++ {
		a, b := pair(i)
		addBoth(out, a, b, k[i])
	}
}

func addBoth(out, a, b []float32, weight float32) {
	a, b = a[:len(out)], b[:len(out)]
	for i := range out {
		out[i] += weight * (a[i] + b[i])
	}
}

func addFour(out []float32, of [8][]float32, weight [4]float32) {
	n := len(out)
	a, b, c, d := of[0][:n], of[1][:n], of[2][:n], of[3][:n]
	e, f, g, h := of[4][:n], of[5][:n], of[6][:n], of[7][:n]
	k, l, m, o := weight[0], weight[1], weight[2], weight[3]
	for i, sum := range out {
		sum += k * (a[i] + b[i])
		sum += l * (c[i] + d[i])
		sum += m * (e[i] + f[i])
		out[i] = sum + o*(g[i]+h[i])
	}
}
