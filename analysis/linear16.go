package analysis

import (
	"math"
	"math/bits"
	"sync"
)

// linearWhite is the display's white in Reduced.Linear.
const linearWhite = 65535

// middleGrey is the linear light of L* 50: ((50+16)/116)^3 (CIE15).
const middleGrey = 12071

// reduceTables hold the linear light of an 8-bit code in the places where a Reducer adds
// it up: two channels, or one and the pixel's area, in one word.
var reduceTables = func() (t struct{ low, high, green [256]uint64 }) {
	for code := range t.low {
		light := uint64(math.Round(linearWhite * Linear(uint8(code))))
		t.low[code], t.high[code], t.green[code] = light, light<<32, light|1<<32
	}
	return t
}()

// lightShares are the channels' shares of lightWhite, in 1/65536 of a unit of Linear.
var lightShares = func() (s [3]uint64) {
	for c, weight := range [3]float64{redLuminance, greenLuminance, blueLuminance} {
		s[c] = uint64(math.Round(weight * lightWhite / linearWhite * 65536))
	}
	return s
}()

// lightOf returns the light of a pixel of Reduced, 0 to lightWhite.
func lightOf(r, g, b uint16) uint32 {
	return uint32((uint64(r)*lightShares[0] + uint64(g)*lightShares[1] + uint64(b)*lightShares[2]) >> 16)
}

// codeSteps give the 8-bit code of a light.
var codeSteps = func() *steps {
	var edges [255]uint32
	for i := range edges {
		edges[i] = firstLight(func(y float64) bool { return int(Encode(y)) > i })
	}
	s := new(steps)
	s.set(edges[:])
	return s
}()

// codeOf returns the 8-bit sRGB code of a channel of Reduced, rounded to nearest.
func codeOf(linear uint16) uint8 {
	return codeSteps.of(uint32(linear)<<15 | uint32(linear)>>1)
}

// lightCodes holds codeOf of every light: one load, for where that is not lost among others.
var lightCodes = sync.OnceValue(func() *[linearWhite + 1]uint8 {
	codes := new([linearWhite + 1]uint8)
	for light := range codes {
		codes[light] = codeOf(uint16(light))
	}
	return codes
})

// divisor divides by the same number again and again, exactly as / does, but by a
// multiplication.
type divisor struct{ by, inverse uint64 }

// newDivisor prepares a division by by, which is at least 1.
func newDivisor(by uint64) divisor { return divisor{by, math.MaxUint64 / by} }

// of returns n / by. The inverse is at most 1 too small, so that for n up to 2^63 the
// quotient is at most 1 too small, which the rest tells.
func (d divisor) of(n uint64) uint64 {
	q, _ := bits.Mul64(n, d.inverse)
	if n-q*d.by >= d.by {
		q++
	}
	return q
}
