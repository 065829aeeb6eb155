package colour

import "math"

// BinOf returns the bin of the histogram, 0 to 255, that holds a lightness.
func BinOf(lightness float64) int { return int(math.Round(lightness * BinsPerLightness)) }

// BinsPerLightness is the histogram's bins per unit of lightness: 255 for 100.
const BinsPerLightness = 2.55

// LightnessOfBins returns the mean lightness of count pixels whose bins add up to sum; NaN
// if there are none.
func LightnessOfBins(sum, count int) float64 {
	return float64(100*sum) / float64(255*count) // rounded once: never above 100; 0/0 is NaN
}
