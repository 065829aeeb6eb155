package light

import (
	"cmp"
	"slices"
)

// mostWeight is how much of all weights one local colour has at most (our choice): less than half, so
// that one large form, a wall or a dress, never outvotes all others. Painted scenes tell how much that
// takes: see the figures in DEVELOPERS.md.
const mostWeight = 0.4

// evenOut takes weight from those that have more than mostWeight of all, until none has. Of two local
// colours one has always more: they weigh the same.
func evenOut(pairs []pair) {
	if mostWeight*float64(len(pairs)) < 1 {
		for i := range pairs {
			pairs[i].weight = 1
		}
		return
	}
	most := mostOf(pairs)
	for i := range pairs {
		pairs[i].weight = min(pairs[i].weight, most)
	}
}

// mostOf returns the weight that is mostWeight of all once larger ones are cut to it.
func mostOf(pairs []pair) (most float64) {
	var weights []float64
	for _, p := range pairs {
		weights = append(weights, p.weight)
	}
	slices.SortFunc(weights, func(a, b float64) int { return cmp.Compare(b, a) })
	for cut := range weights { // so many are cut: most = mostWeight * (cut * most + the others)
		most = mostWeight * sumOf(weights[cut:]) / (1 - mostWeight*float64(cut))
		if weights[cut] <= most {
			break
		}
	}
	return most
}
