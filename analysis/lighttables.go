package analysis

import "math"

// lightTables turn 8-bit pixels into bins of lightness: three loads, a sum, and steps.
type lightTables struct {
	edges [255]uint32    // the least light of bins 1 to 255
	bins  steps          // light to bin: how many edges it has reached
	share [3][256]uint32 // light of a channel's code, by red, green, blue; sums to lightWhite
}

var planeTables = newLightTables()

func newLightTables() *lightTables {
	t := new(lightTables)
	for i := range t.edges {
		t.edges[i] = firstLight(func(y float64) bool { return binOf(Lightness(y)) > i })
	}
	t.bins.set(t.edges[:])
	for c, weight := range [3]float64{redLuminance, greenLuminance, blueLuminance} {
		for code := range t.share[c] {
			t.share[c][code] = uint32(math.Round(lightWhite * weight * Linear(uint8(code))))
		}
	}
	return t
}

// bin returns the bin of an 8-bit colour's lightness.
func (t *lightTables) bin(r, g, b uint8) uint8 {
	return t.bins.of(t.share[0][r] + t.share[1][g] + t.share[2][b])
}
