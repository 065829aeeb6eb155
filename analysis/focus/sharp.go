package focus

import "math"

// cellBlur is what taking the slope over two cells, and the mean over one, add to the squared width
// of a blur: the variances of even spreads over so much, 1/3 and 1/12.
const cellBlur = 1.0/3 + 1.0/12

// leastSlope is how much of the mean squared slope has to be there for its edges to be measured, in
// L* a cell: less is what 8 bits leave of a flat area (our choice).
const leastSlope = 0.01

// edgeWidth returns how wide the edges of a place are, by its squared slopes after the first blur and
// after the second. Across an edge that rises as the integral of a Gaussian of width s, blurred by
// one of width b, the squared slope adds up to its step, squared, over 2 sqrt(pi (s² + b²)): of
// two blurs the quotient says s (computed from the formula of the Gaussian).
func (f *Found) edgeWidth(slopes [slopeLevels]float64, cells float64) *float64 {
	if slopes[0] < leastSlope*cells {
		return nil
	}
	fine, coarse := widths[0]*widths[0]+cellBlur, widths[1]*widths[1]+cellBlur
	q := slopes[0] * slopes[0] / (slopes[1] * slopes[1]) // (s² + coarse) / (s² + fine)
	squared := 0.0
	if sharpest := coarse / fine; q < sharpest {
		squared = (coarse - q*fine) / (q - 1)
	}
	longer := float64(max(f.planes.w, f.planes.h))
	// An edge wider than a place isn't told from a gradient through it.
	width := 2 * math.Sqrt(max(squared, 0)) / longer
	if most := 2 * f.radius / longer; !(q > 1) || width > most {
		width = most
	}
	return &width
}
