package analysis

import "math"

// Distance returns the earth mover's distance of two histograms of lightness, in tones: how
// far, on average, a pixel of a must be moved along the values of the bins to make b of it,
// each counted as a whole of 1. NaN if either is empty. Source: EMD.
func Distance(a, b *[256]int) float64 { return distanceAlong(binValues(), a, b) }

// distanceAlong is Distance for bins at other places. In one dimension it is the sum over
// bins of the difference of the cumulated shares.
func distanceAlong(places *[256]float64, a, b *[256]int) float64 {
	totalA, totalB := countOf(a[:]), countOf(b[:]) // 0 makes every share, and so the sum, NaN
	sum, belowA, belowB := 0.0, 0, 0
	for bin := range len(a) - 1 {
		belowA += a[bin]
		belowB += b[bin]
		apart := math.Abs(float64(belowA)/float64(totalA) - float64(belowB)/float64(totalB))
		sum += apart * (places[bin+1] - places[bin])
	}
	return sum
}
