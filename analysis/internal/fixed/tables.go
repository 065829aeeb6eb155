package fixed

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// Tables turn 8-bit pixels into bins of lightness: three loads, a sum, and steps.
type Tables struct {
	Edges [255]uint32    // the least light of bins 1 to 255
	Steps Steps          // light to bin: how many edges it has reached
	Share [3][256]uint32 // light of a channel's code, by red, green, blue; sums to White
}

var Bins = newLightTables()

func newLightTables() *Tables {
	t := new(Tables)
	for i := range t.Edges {
		t.Edges[i] = FirstLight(func(y float64) bool { return colour.BinOf(colour.Lightness(y)) > i })
	}
	t.Steps.Set(t.Edges[:])
	for c, weight := range [3]float64{colour.RedLuminance, colour.GreenLuminance, colour.BlueLuminance} {
		for code := range t.Share[c] {
			t.Share[c][code] = uint32(math.Round(White * weight * colour.Linear(uint8(code))))
		}
	}
	return t
}

// Of returns the bin of an 8-bit colour's lightness.
func (t *Tables) Of(r, g, b uint8) uint8 {
	return t.Steps.Of(t.Share[0][r] + t.Share[1][g] + t.Share[2][b])
}
