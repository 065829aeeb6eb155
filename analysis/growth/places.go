package growth

import (
	"slices"
	"time"
)

// longBreak is how many usual steps a break between two moments is drawn long at most (our choice):
// a night between two sittings would press them to two strokes.
const longBreak = 4

// Places returns where the moments of a series stand along a line from 0 to 1: by their times, with
// long breaks drawn short. Where times are unknown or don't rise they stand at even steps.
func Places(moments []Moment) []float64 {
	places := make([]float64, len(moments))
	var steps []time.Duration
	for i := 1; i < len(moments); i++ {
		steps = append(steps, moments[i].At.Sub(moments[i-1].At))
	}
	even := len(steps) == 0 || moments[0].At.IsZero() || slices.Min(steps) <= 0
	most := time.Duration(0)
	if !even {
		sorted := slices.Sorted(slices.Values(steps))
		most = longBreak * sorted[len(sorted)/2]
	}
	sum := 0.0
	for i := range steps {
		if even {
			sum++
		} else {
			sum += min(steps[i], most).Seconds()
		}
		places[i+1] = sum
	}
	for i := range places {
		if sum > 0 {
			places[i] /= sum
		}
	}
	return places
}
