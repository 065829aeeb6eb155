package analysis

import "math"

// binOf returns the bin of the histogram, 0 to 255, that holds a lightness.
func binOf(lightness float64) int { return int(math.Round(lightness * binsPerLightness)) }

// binsPerLightness is the histogram's bins per unit of lightness: 255 for 100.
const binsPerLightness = 2.55

// lightnessOfBins returns the mean lightness of count pixels whose bins add up to sum; NaN
// if there are none.
func lightnessOfBins(sum, count int) float64 {
	if count == 0 {
		return math.NaN()
	}
	return float64(100*sum) / float64(255*count) // rounded once: never above 100
}
