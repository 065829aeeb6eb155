package fixed

import (
	"math"
	"math/bits"
	"sync"

	"app.tonedesk/analysis/colour"
)

// LinearWhite is the display's white in the linear light of a reduced picture.
const LinearWhite = 65535

// MiddleGrey is the linear light of L* 50: ((50+16)/116)^3 (CIE15).
const MiddleGrey = 12071

// LightTables hold the linear light of an 8-bit code where sums over pixels add it up, three
// channels to a word. Each channel's codes have their own table.
type LightTables struct{ Red, Green, Blue [256]uint64 }

// SumBits is how many bits of a word of sums a channel has; red lies in the lowest, then green, then
// blue. The light of MostSummed pixels fits them.
const (
	SumBits    = 21
	SumMask    = 1<<SumBits - 1
	MostSummed = SumMask / LinearWhite
)

// ReduceTables are those of sRGB, whose channels are alike.
var ReduceTables = newLightTables(nil)

func newLightTables(s *colour.Space) *LightTables {
	t, linears := new(LightTables), s.Linears()
	light := func(channel, code int) uint64 { return uint64(math.Round(LinearWhite * linears[channel][code])) }
	for code := range t.Red {
		t.Red[code], t.Green[code], t.Blue[code] = light(0, code), light(1, code)<<SumBits, light(2, code)<<(2*SumBits)
	}
	return t
}

// lightShares are the channels' shares of White, in 1/65536 of a unit of linear light.
var lightShares = func() (s [3]uint64) {
	for c, weight := range [3]float64{colour.RedLuminance, colour.GreenLuminance, colour.BlueLuminance} {
		s[c] = uint64(math.Round(weight * White / LinearWhite * 65536))
	}
	return s
}()

// LightOf returns the light of a pixel of a reduced picture, 0 to White.
func LightOf(r, g, b uint16) uint32 {
	return uint32((uint64(r)*lightShares[0] + uint64(g)*lightShares[1] + uint64(b)*lightShares[2]) >> 16)
}

// CodeSteps give the 8-bit code of a light.
var CodeSteps = func() *Steps {
	var edges [255]uint32
	for i := range edges {
		edges[i] = FirstLight(func(y float64) bool { return int(colour.Encode(y)) > i })
	}
	s := new(Steps)
	s.Set(edges[:])
	return s
}()

// CodeOf returns the 8-bit sRGB code of a channel of a reduced picture, rounded to nearest.
func CodeOf(linear uint16) uint8 {
	return CodeSteps.Of(uint32(linear)<<15 | uint32(linear)>>1)
}

// LightCodes holds CodeOf of every light: one load, for where that is not lost among others.
var LightCodes = sync.OnceValue(func() *[LinearWhite + 1]uint8 {
	codes := new([LinearWhite + 1]uint8)
	for light := range codes {
		codes[light] = CodeOf(uint16(light))
	}
	return codes
})

// divisor divides by the same number again and again, exactly as / does, but by a
// multiplication.
type divisor struct{ by, inverse uint64 }

// NewDivisor prepares a division by by, which is at least 1.
func NewDivisor(by uint64) divisor { return divisor{by, math.MaxUint64 / by} }

// Of returns n / by. The inverse is at most 1 too small, so that for n up to 2^63 the
// quotient is at most 1 too small, which the rest tells.
func (d divisor) Of(n uint64) uint64 {
	q, _ := bits.Mul64(n, d.inverse)
	if n-q*d.by >= d.by {
		q++
	}
	return q
}
