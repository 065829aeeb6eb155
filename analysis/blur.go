package analysis

import (
	"encoding/binary"
	"math"
)

// blur is a Gaussian blur of a reduced picture, in linear light; beyond an edge its pixels
// are repeated.
//
// A wide Gaussian is done on half as many samples across and down, or on half as many of
// those: halving and doubling back blur too, and the Gaussian adds what is missing. Against
// the exact blur no channel is off by more than blurTolerance of white.
type blur struct {
	src *Reduced
	dst []byte

	planes  [2][]triple // the picture on its way, and where it goes next
	weights []float64
	kernel  []uint64      // of the Gaussian, from its centre outward; 1/65536, as a whole 1
	scratch []blurScratch // one a worker

	// The pass under way: rows of one plane become columns of the other, so that two passes
	// do a picture across and down.
	step        blurStep
	first, last bool // from src; to dst
	count       int  // rows
	from, to    int  // samples of a row, before and after
}

type blurStep uint8

const (
	halve blurStep = iota
	smooth
	double
)

// blurScratch is a worker's memory.
type blurScratch struct {
	row    []triple // a row with its ends repeated
	result []triple
	pairs  [3][]uint64 // a row's channels, two places to a word
}

// leastHalved is the least sigma, in pixels, that is done on half as many samples.
const leastHalved = 2.6

// blurTolerance is how far a channel may be from the exact blur, as a share of white.
const blurTolerance = 0.002

// paint blurs src by a Gaussian of sigma pixels into dst, as 8-bit sRGB; without a dst the
// light stays in planes[0].
func (b *blur) paint(dst []byte, src *Reduced, sigma float64) {
	if src.Width == 0 || src.Height == 0 {
		return
	}
	b.src, b.dst = src, dst
	b.scratch = resized(b.scratch, src.working().workers())
	var widths, heights [32]int
	halvings, variance := 0, sigma*sigma
	widths[0], heights[0] = src.Width, src.Height
	for sigma/math.Exp2(float64(halvings)) >= leastHalved {
		variance = (variance - halvingVariance) / 4
		halvings++
		widths[halvings], heights[halvings] = halvedCount(widths[halvings-1]), halvedCount(heights[halvings-1])
	}
	b.setKernel(math.Sqrt(max(0, variance)))
	for i := range halvings {
		b.pass(halve, heights[i], widths[i], widths[i+1], i == 0, false)
		b.pass(halve, widths[i+1], heights[i], heights[i+1], false, false)
	}
	width, height := widths[halvings], heights[halvings]
	b.pass(smooth, height, width, width, halvings == 0, false)
	b.pass(smooth, width, height, height, false, halvings == 0 && dst != nil)
	for i := halvings - 1; i >= 0; i-- {
		b.pass(double, heights[i+1], widths[i+1], widths[i], false, false)
		b.pass(double, widths[i], heights[i+1], heights[i], false, i == 0 && dst != nil)
	}
	b.src, b.dst = nil, nil // the picture isn't ours to keep
}

func (b *blur) setKernel(sigma float64) {
	b.weights = appendGaussKernel(b.weights[:0], sigma)
	b.kernel = resized(b.kernel, len(b.weights))
	rest := uint64(1 << 16)
	for x := len(b.weights) - 1; x > 0; x-- {
		b.kernel[x] = uint64(math.Round(b.weights[x] * (1 << 16)))
		rest -= 2 * b.kernel[x]
	}
	b.kernel[0] = rest
}

// pass does one step to all rows of a plane.
func (b *blur) pass(step blurStep, count, from, to int, first, last bool) {
	b.step, b.count, b.from, b.to, b.first, b.last = step, count, from, to, first, last
	if !last {
		b.planes[1] = resized(b.planes[1], count*to)
	}
	b.src.work.do(b, count)
	b.planes[0], b.planes[1] = b.planes[1], b.planes[0]
}

// Samples repeated before and after a row, as halving wants them.
const (
	halveBefore = 2*halvedReach + 2
	halveAfter  = 2 * halvedReach
)

func (b *blur) rows(worker, first, last int) {
	s := &b.scratch[worker]
	s.result = resized(s.result, b.to)
	for y := first; y < last; y++ {
		switch b.step {
		case halve:
			b.load(s, y, halveBefore, halveAfter)
			for i := range s.result {
				s.result[i] = halved(s.row[2*i:])
			}
		case smooth:
			radius := len(b.kernel) - 1
			b.load(s, y, radius, radius+1)
			s.smooth(b.kernel)
		case double:
			s.double(b.planes[0][y*b.from:][:b.from])
		}
		b.store(s.result, y)
	}
}

// load puts row y into s, its ends repeated.
func (b *blur) load(s *blurScratch, y, before, after int) {
	s.row = resized(s.row, before+b.from+after)
	inside := s.row[before:][:b.from]
	if b.first {
		linear := b.src.Linear[3*y*b.from:][:3*b.from]
		for i := range inside {
			p := linear[3*i:][:3]
			inside[i] = newTriple(p[0], p[1], p[2])
		}
	} else {
		copy(inside, b.planes[0][y*b.from:][:b.from])
	}
	for i := range before {
		s.row[i] = inside[0]
	}
	for i := before + b.from; i < len(s.row); i++ {
		s.row[i] = inside[b.from-1]
	}
}

// store makes a column of a row.
func (b *blur) store(row []triple, y int) {
	if !b.last {
		to := b.planes[1][y:]
		for i, t := range row {
			to[i*b.count] = t
		}
		return
	}
	to, stride := b.dst[pixelBytes*y:], pixelBytes*b.src.Width
	for i, t := range row {
		code := uint32(codeOf(t.channel(0))) | uint32(codeOf(t.channel(1)))<<8 | uint32(codeOf(t.channel(2)))<<16
		binary.LittleEndian.PutUint32(to[i*stride:], code|opaqueWord)
	}
}

// double fills the result from a row of half as many samples.
func (s *blurScratch) double(row []triple) {
	result, near := s.result, row[halvedReach-1:]
	for len(result) >= 2 && len(near) >= 3 {
		result[0], result[1] = doubled(near[0], near[1], near[2])
		result, near = result[2:], near[1:]
	}
	if len(result) == 1 {
		result[0], _ = doubled(near[0], near[1], near[2])
	}
}

// smooth fills the result from the row by a Gaussian. Two places of the row, half of its
// length apart, share a word: 32 bits each, which hold 65536 times white.
func (s *blurScratch) smooth(kernel []uint64) {
	radius := len(kernel) - 1
	half := (len(s.result) + 1) / 2
	for c := range s.pairs {
		s.pairs[c] = resized(s.pairs[c], half+2*radius)
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
