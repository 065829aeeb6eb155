package analysis

import "math"

// EarthMovers returns the earth mover's distance of two histograms, in bins: how far, on
// average, a pixel of a must be moved along the bins to make b of it, each counted as a
// whole of 1. NaN if either is empty or their lengths differ.
//
// In one dimension it is the sum over bins of the difference of the cumulated shares.
// Source: EMD.
func EarthMovers(a, b []float64) float64 {
	totalA, totalB := 0.0, 0.0
	for _, n := range a {
		totalA += n
	}
	for _, n := range b {
		totalB += n
	}
	if len(a) != len(b) || !(totalA > 0) || !(totalB > 0) {
		return math.NaN()
	}
	below, sum := 0.0, 0.0
	for bin := range a {
		below += a[bin]/totalA - b[bin]/totalB
		sum += math.Abs(below)
	}
	return sum
}

// Distance returns the earth mover's distance of two histograms of lightness, in tones: each
// pixel's way is measured in value. NaN if either is empty. Source: EMD.
func Distance(a, b *[256]int) float64 {
	totalA, totalB := 0, 0
	for bin := range a {
		totalA += a[bin]
		totalB += b[bin]
	}
	if totalA == 0 || totalB == 0 {
		return math.NaN()
	}
	values, sum := binValues(), 0.0
	belowA, belowB := 0, 0
	for bin := range len(a) - 1 {
		belowA += a[bin]
		belowB += b[bin]
		apart := math.Abs(float64(belowA)/float64(totalA) - float64(belowB)/float64(totalB))
		sum += apart * (values[bin+1] - values[bin])
	}
	return sum
}
