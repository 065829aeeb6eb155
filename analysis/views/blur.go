package views

import (
	"encoding/binary"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
	"app.tonedesk/analysis/reduce"
)

// blur is a Gaussian blur of a reduced picture, in linear light; beyond an edge its pixels
// are repeated.
//
// A wide Gaussian is done on half as many samples across and down, or on half as many of
// those: halving and doubling back blur too, and the Gaussian adds what is missing. Against
// the exact blur no channel is off by more than blurTolerance of white.
type blur struct {
	src *reduce.Picture
	dst []byte // what is painted; nil to leave the light in from

	from, to plane // the picture on its way, and where it goes next
	weights  []float64
	kernel   []uint64      // of the Gaussian, from its centre outward; 1/65536, as a whole 1
	step     blurStep      // under way
	scratch  []blurScratch // one a worker
}

// plane is a picture in triples. Without any it stands for the picture outside: src before
// the first step, dst in the last.
type plane struct {
	width, height int
	triples       []triple
}

type blurStep uint8

const (
	halve blurStep = iota
	smooth
	double
)

// blurScratch is a worker's memory.
type blurScratch struct {
	row    []triple             // a row with its ends repeated
	near   [halvedTaps][]triple // rows next to each other, halved across
	result []triple
	pairs  [3][]uint64 // a row's channels, two places to a word
}

// leastHalved is the least sigma, in pixels, that is done on half as many samples.
const leastHalved = 2.6

// blurTolerance is how far a channel may be from the exact blur, as a share of white.
const blurTolerance = 0.002

// mostHalvings halve any picture to a pixel.
const mostHalvings = 31

// paint blurs src by a Gaussian of sigma pixels into dst, as 8-bit sRGB.
func (b *blur) paint(dst []byte, src *reduce.Picture, sigma float64) {
	if src.Width == 0 || src.Height == 0 {
		return
	}
	b.src, b.dst = src, dst
	b.scratch = pool.Resized(b.scratch, src.Workers())
	b.from = plane{src.Width, src.Height, b.from.triples[:0]}
	var sizes [mostHalvings][2]int
	halvings, variance := 0, sigma*sigma
	for ; sigma >= leastHalved && halvings < mostHalvings; sigma /= 2 {
		variance = (variance - halvingVariance) / 4
		sizes[halvings] = [2]int{b.from.width, b.from.height}
		b.do(halve, halvedCount(b.from.width), halvedCount(b.from.height), false)
		halvings++
	}
	b.setKernel(math.Sqrt(max(0, variance)))
	b.do(smooth, b.from.height, b.from.width, false)
	b.do(smooth, b.from.height, b.from.width, halvings == 0)
	for halvings > 0 {
		halvings--
		b.do(double, sizes[halvings][0], sizes[halvings][1], halvings == 0)
	}
	b.src, b.dst = nil, nil // the picture isn't ours to keep
}

// setKernel makes the kernel of a Gaussian in whole numbers.
func (b *blur) setKernel(sigma float64) {
	b.weights = gaussKernel(b.weights[:0], sigma)
	b.kernel = pool.Resized(b.kernel, len(b.weights))
	rest := uint64(1 << 16)
	for x := len(b.weights) - 1; x > 0; x-- {
		b.kernel[x] = uint64(math.Round(b.weights[x] * (1 << 16)))
		rest -= 2 * b.kernel[x]
	}
	b.kernel[0] = rest
}

// do makes a picture of width x height of the one before. Smoothing turns rows into columns,
// so that twice does both across and down.
func (b *blur) do(step blurStep, width, height int, last bool) {
	b.step = step
	b.to = plane{width, height, b.to.triples[:0]}
	if !last || b.dst == nil {
		b.to.triples = pool.Resized(b.to.triples, width*height)
	}
	rows := height
	if step == smooth {
		rows = b.from.height
	}
	b.src.Do(b, rows)
	b.from, b.to = b.to, b.from
}

func (b *blur) Rows(worker, first, last int) {
	s := &b.scratch[worker]
	switch b.step {
	case halve:
		b.halveRows(s, first, last)
	case smooth:
		b.smoothRows(s, first, last)
	case double:
		b.doubleRows(s, first, last)
	}
}

// load puts row y of the picture before into s, its ends repeated.
func (b *blur) load(s *blurScratch, y, before, after int) {
	width := b.from.width
	s.row = pool.Resized(s.row, before+width+after)
	inside := s.row[before:][:width]
	if len(b.from.triples) == 0 {
		linear := b.src.Linear[3*y*width:][:3*width]
		for i := range inside {
			if len(linear) < 3 {
				break
			}
			inside[i] = newTriple(linear[0], linear[1], linear[2])
			linear = linear[3:]
		}
	} else {
		copy(inside, b.from.triples[y*width:][:width])
	}
	for i := range before {
		s.row[i] = inside[0]
	}
	for i := before + width; i < len(s.row); i++ {
		s.row[i] = inside[width-1]
	}
}

// halveRows makes rows of half as many samples. Each row of the picture before is halved
// across once, and enters three rows.
func (b *blur) halveRows(s *blurScratch, first, last int) {
	ready := halvedBefore(first)
	for y := first; y < last; y++ {
		begin := halvedBefore(y)
		for ; ready < begin+halvedTaps; ready++ {
			b.load(s, max(0, min(ready, b.from.height-1)), -halvedBefore(0), 2*halvedReach)
			across := pool.Resized(s.near[ready-begin], b.to.width)
			for i := range across {
				row := (*[halvedTaps]triple)(s.row[2*i:])
				across[i] = halved(row[0], row[1], row[2], row[3], row[4], row[5])
			}
			s.near[ready-begin] = across
		}
		to := b.to.triples[y*b.to.width:][:b.to.width]
		n := &s.near
		r0, r1, r2, r3, r4, r5 := n[0][:len(to)], n[1][:len(to)], n[2][:len(to)], n[3][:len(to)], n[4][:len(to)], n[5][:len(to)]
		for x := range to {
			to[x] = halved(r0[x], r1[x], r2[x], r3[x], r4[x], r5[x])
		}
		n[0], n[1], n[2], n[3], n[4], n[5] = n[2], n[3], n[4], n[5], n[0], n[1]
	}
}

// doubleRows makes rows of twice as many samples, down first, then across.
func (b *blur) doubleRows(s *blurScratch, first, last int) {
	width := b.from.width
	s.row, s.result = pool.Resized(s.row, width), pool.Resized(s.result, b.to.width)
	for y := first; y < last; y++ {
		rows := b.from.triples[(y/2+halvedReach-1)*width:][:3*width]
		near, here, far := rows[:width], rows[width:][:width], rows[2*width:][:width]
		if y%2 == 1 {
			near, far = far, near
		}
		for x := range s.row {
			s.row[x] = doubled(far[x], here[x], near[x])
		}
		doubleAcross(s.result, s.row[halvedReach-1:])
		b.store(s.result, y*b.to.width, 1)
	}
}

// doubleAcross fills result with twice as many samples as row has.
func doubleAcross(result, row []triple) {
	for len(result) >= 2 && len(row) >= 3 {
		before, here, after := row[0], row[1], row[2]
		result[0], result[1] = doubled(after, here, before), doubled(before, here, after)
		result, row = result[2:], row[1:]
	}
	if len(result) == 1 {
		result[0] = doubled(row[2], row[1], row[0])
	}
}

// smoothRows blurs rows by the kernel and makes columns of them.
func (b *blur) smoothRows(s *blurScratch, first, last int) {
	radius := len(b.kernel) - 1
	s.result = pool.Resized(s.result, b.from.width)
	for y := first; y < last; y++ {
		b.load(s, y, radius, radius+1)
		s.smooth(b.kernel)
		b.store(s.result, y, b.to.width)
	}
}

// store puts row into the next picture, the first at a place of it and each step places on.
func (b *blur) store(row []triple, at, step int) {
	if len(b.to.triples) > 0 {
		to := b.to.triples[at:]
		for i, t := range row {
			to[i*step] = t
		}
		return
	}
	dst, step, codes := b.dst[analysis.PixelBytes*at:], analysis.PixelBytes*step, fixed.LightCodes()
	for i, t := range row {
		if i > 0 {
			dst = dst[step:]
		}
		code := uint32(codes[t.channel(0)]) | uint32(codes[t.channel(1)])<<8 | uint32(codes[t.channel(2)])<<16
		binary.LittleEndian.PutUint32(dst, code|analysis.OpaqueWord)
	}
}

// smooth fills the result from the row by a Gaussian. Two places of the row, half of its
// length apart, share a word: 32 bits each, which hold 65536 times white.
func (s *blurScratch) smooth(kernel []uint64) {
	radius := len(kernel) - 1
	half := (len(s.result) + 1) / 2
	for c := range s.pairs {
		s.pairs[c] = pool.Resized(s.pairs[c], half+2*radius)
		pairs, left, right := s.pairs[c], s.row[:half+2*radius], s.row[half:][:half+2*radius]
		for i := range pairs {
			pairs[i] = uint64(left[i].channel(c)) | uint64(right[i].channel(c))<<32
		}
	}
	red, green, blue := s.pairs[0], s.pairs[1], s.pairs[2]
	left, right := s.result[:half], s.result[half:]
	for i := range left {
		r, g, b := red[i:][:2*radius+1], green[i:][:2*radius+1], blue[i:][:2*radius+1]
		const rounded = 1<<15 | 1<<47
		sumR, sumG, sumB := kernel[0]*r[radius]+rounded, kernel[0]*g[radius]+rounded, kernel[0]*b[radius]+rounded
		for x := 1; x < len(kernel); x++ {
			weight, before, after := kernel[x], radius-x, radius+x
			sumR += weight * (r[before] + r[after])
			sumG += weight * (g[before] + g[after])
			sumB += weight * (b[before] + b[after])
		}
		left[i] = newTriple(uint16(sumR>>16), uint16(sumG>>16), uint16(sumB>>16))
		if i < len(right) {
			right[i] = newTriple(uint16(sumR>>48), uint16(sumG>>48), uint16(sumB>>48))
		}
	}
}
