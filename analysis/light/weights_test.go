package light

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func weighing(weights ...float64) (pairs []pair) {
	for _, w := range weights {
		pairs = append(pairs, pair{weight: w})
	}
	return pairs
}

// Weights by hand: the largest are cut to two fifths of what there is then.
func TestEvenOut(t *testing.T) {
	for _, tt := range []struct {
		source    string
		has, want []float64
	}{
		{"one", []float64{0.3}, []float64{1}},
		{"two weigh the same", []float64{0.9, 0.1}, []float64{1, 1}},
		{"none has more", []float64{0.4, 0.3, 0.3}, []float64{0.4, 0.3, 0.3}},
		{"one has: 0.2 of 0.5", []float64{0.1, 0.7, 0.2}, []float64{0.1, 0.2, 0.2}},
		{"two have: 0.2 of 0.5 each", []float64{0.45, 0.45, 0.1}, []float64{0.2, 0.2, 0.1}},
		{"of four: 0.2 of 0.5", []float64{0.1, 0.1, 0.1, 3}, []float64{0.1, 0.1, 0.1, 0.2}},
	} {
		pairs := weighing(tt.has...)
		evenOut(pairs)
		for i, want := range tt.want {
			if got := pairs[i].weight; math.Abs(got-want) > 1e-12 {
				t.Errorf("%s: %d weighs %g, want %g", tt.source, i, got, want)
			}
		}
	}
}

// None of three or more has more than mostWeight of all; what has less keeps its area.
func TestEvenOutLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		areas := rapid.SliceOfN(rapid.Float64Range(leastShare, 1), 3, 12).Draw(t, "areas")
		pairs := weighing(areas...)
		evenOut(pairs)
		sum := 0.0
		for _, p := range pairs {
			sum += p.weight
		}
		for i, p := range pairs {
			if share := p.weight / sum; share > mostWeight+1e-9 || p.weight != areas[i] && share < mostWeight-1e-9 {
				t.Errorf("area %g of %v weighs %g, %g of all", areas[i], areas, p.weight, share)
			}
		}
	})
}
