package families

// Responses of noiseOf's operator are counted in so many steps of so much, in 1/cellLab of L*.
const (
	noiseSteps = 1024
	noiseStep  = 8
)

// noiseOf estimates the standard deviation of grain, in L*, from the median response of the
// operator 1 -2 1, -2 4 -2, 1 -2 1: slopes don't count, and edges and lines are the smaller
// part of a picture (NOISE). The lightness is in 1/cellLab; what is left out doesn't count.
func noiseOf(lightness []int32, left []uint8, across, down int) float64 {
	var counts [noiseSteps]int
	total := 0
	for y := 1; y < down-1; y++ {
		for x := 1; x < across-1; x++ {
			i := y*across + x
			if left[i] != 0 {
				continue
			}
			a, b, c := lightness[i-across-1:][:3], lightness[i-1:][:3], lightness[i+across-1:][:3]
			v := a[0] - 2*a[1] + a[2] - 2*b[0] + 4*b[1] - 2*b[2] + c[0] - 2*c[1] + c[2]
			counts[min(max(v, -v)/noiseStep, noiseSteps-1)]++
			total++
		}
	}
	below := 0
	for i, n := range counts {
		if below += n; 2*below >= total && i > 0 {
			const (
				gain   = 6      // of the operator: the root of its squared weights
				median = 0.6745 // of a normal distribution's size, by its deviation
			)
			return (float64(i) + 0.5) * noiseStep / cellLab / gain / median
		}
		if 2*below >= total { // none, as far as can be told
			return 0
		}
	}
	return 0
}
