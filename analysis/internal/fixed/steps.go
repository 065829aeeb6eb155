package fixed

import (
	"math"
	"sort"

	"app.tonedesk/analysis/colour"
)

// The fast passes count light in whole numbers: White is the display's white, 0 is
// black. 31 bits leave a step of 4e-8 L* in the mid-tones, and the sum of three channels
// still fits 32 bits.
const (
	LightBits = 31
	White     = 1 << LightBits
)

// A bucket of steps spans 1/4096 of white: less than the narrowest 8-bit step of lightness
// (1/2303, on CIE 1976's straight piece) and of sRGB (1/3295, on its straight piece).
const (
	BucketShift = LightBits - 12
	BucketSize  = 1 << BucketShift
	AnswerShift = BucketShift + 1
)

// Steps answers, in two loads' time and without a branch, how many of a fixed set of
// thresholds a light value has reached. It is exact, as long as no two thresholds lie in
// one bucket.
//
// Each entry holds the count of thresholds below its bucket, shifted out of the way, plus
// what makes the sum with the light carry into the count exactly from the bucket's own
// threshold on. Indexed by the light's upper bits, 0 to 4096; the rest of the array spares
// the bounds check.
type Steps [1 << (32 - BucketShift)]uint32

// Set builds s for thresholds in ascending order, at least a bucket apart, each in
// (0, White].
func (s *Steps) Set(thresholds []uint32) {
	var below uint32 // thresholds at or under the bucket's start
	rest := thresholds
	for b := range uint32(White>>BucketShift + 1) {
		start := b << BucketShift
		for len(rest) > 0 && rest[0] <= start {
			below, rest = below+1, rest[1:]
		}
		toCarry := uint32(0) // none in this bucket: the sum never carries
		if len(rest) > 0 && rest[0]-start < BucketSize {
			toCarry = 2*BucketSize - (rest[0] - start)
		}
		s[b] = below<<AnswerShift + toCarry - start // wraps; the light added later undoes it
	}
}

// Of returns how many thresholds lie at or under light, which is at most White.
func (s *Steps) Of(light uint32) uint8 {
	return uint8((s[light>>BucketShift] + light) >> AnswerShift)
}

// FirstLight returns the least light for which reached is true; reached must be false up
// to some light and true from there on. White + 1 if it never is.
func FirstLight(reached func(y float64) bool) uint32 {
	return uint32(sort.Search(White+1, func(light int) bool {
		return reached(float64(light) / White)
	}))
}

// LightFrom returns the least light that is not under y, a relative luminance in [0, 1].
func LightFrom(y float64) uint32 { return uint32(math.Ceil(y * White)) }

// Tables turn 8-bit pixels into bins of lightness: three loads, a sum, and steps.
type Tables struct {
	Edges [255]uint32    // the least light of bins 1 to 255
	Steps Steps          // light to bin: how many edges it has reached
	Share [3][256]uint32 // light of a channel's code, by red, green, blue; sums to White
}

// Bins are those of the histogram, of sRGB.
var Bins = newTables(nil, nil)

// newTables makes the tables of a space; nil is sRGB. The steps are the same in all, and taken
// over from like where there is one.
func newTables(s *colour.Space, like *Tables) *Tables {
	t := new(Tables)
	if like == nil {
		for i := range t.Edges {
			t.Edges[i] = FirstLight(func(y float64) bool { return colour.BinOf(colour.Lightness(y)) > i })
		}
		t.Steps.Set(t.Edges[:])
	} else {
		t.Edges, t.Steps = like.Edges, like.Steps
	}
	linears := s.Linears()
	for c, weight := range [3]float64{s.Luminance(1, 0, 0), s.Luminance(0, 1, 0), s.Luminance(0, 0, 1)} {
		for code := range t.Share[c] {
			t.Share[c][code] = uint32(math.Round(White * weight * linears[c][code]))
		}
	}
	return t
}

// Of returns the bin of an 8-bit colour's lightness.
func (t *Tables) Of(r, g, b uint8) uint8 {
	return t.Steps.Of(t.Share[0][r] + t.Share[1][g] + t.Share[2][b])
}
