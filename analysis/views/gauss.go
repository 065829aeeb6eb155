package views

import "math"

// gaussKernel appends to dst, which is empty, the weights of a sampled Gaussian from its
// centre outward: half of it and the centre, as far as 4 sigma, rounded to nearest. Twice
// the sum without the centre, and the centre, is 1. sigma is in pixels; at 0 and below, and
// for NaN, nothing is blurred.
func gaussKernel(dst []float64, sigma float64) []float64 {
	if !(sigma > 0) {
		return append(dst, 1)
	}
	radius, sum := int(4*sigma+0.5), -1.0
	for x := range radius + 1 {
		weight := math.Exp(-float64(x*x) / (2 * sigma * sigma))
		dst = append(dst, weight)
		sum += 2 * weight
	}
	for x := range dst {
		dst[x] /= sum
	}
	return dst
}
