package palette

import (
	"cmp"
	"math"
	"slices"

	"app.tonedesk/analysis/colour"
)

// The colours of a palette are found by k-means in Oklab, begun not by chance but from the
// farthest colours, so that the same picture gives the same palette. Source: KMEANS. The
// limits are our own, tried on painted scenes.
const (
	clusterApart  = 0.035  // Oklab: nearer colours are one colour of the palette
	clusterLeast  = 0.0005 // share of the pixels that speak: less makes no colour of the palette
	clusterRounds = 20
	clusterCore   = 0.02 // Oklab: how near a cluster's middle its colour is looked for
)

// clusters returns the middles of the clusters, at most Most, at least one.
func clusters(cells []cell) []colour.Oklab {
	all := 0.0
	for i := range cells {
		all += cells[i].weight
	}
	centres := farthest(cells, clusterLeast*all)
	for {
		centres = settleMeans(cells, centres)
		weak := weakest(cells, centres, clusterLeast*all)
		if weak < 0 {
			return centres
		}
		centres = slices.Delete(centres, weak, weak+1)
	}
}

// farthest returns where to begin: the heaviest cell, then again and again the one that is
// farthest from all before, the root of its weight counting too: a small spot of another
// colour is a colour of the picture, a few pixels aren't.
func farthest(cells []cell, total float64) []colour.Oklab {
	heaviest := slices.MaxFunc(cells, func(a, b cell) int { return cmp.Compare(a.weight, b.weight) })
	centres := []colour.Oklab{heaviest.place}
	away := make([]float64, len(cells)) // squared distance to the nearest of centres
	for i := range away {
		away[i] = math.Inf(1)
	}
	least := total / 20 // a colour may lie spread over many cells
	for len(centres) < Most {
		last, best, most := centres[len(centres)-1], -1, 0.0
		for i := range cells {
			away[i] = min(away[i], squareApart(cells[i].place, last))
			if away[i] < clusterApart*clusterApart || cells[i].weight < least {
				continue
			}
			if far := away[i] * math.Sqrt(cells[i].weight); far > most {
				best, most = i, far
			}
		}
		if best < 0 {
			break
		}
		centres = append(centres, cells[best].place)
	}
	return centres
}

// settleMeans moves every centre to the mean of the cells that are nearest to it, until they
// stay.
func settleMeans(cells []cell, centres []colour.Oklab) []colour.Oklab {
	for range clusterRounds {
		sums, weights := make([]colour.Oklab, len(centres)), make([]float64, len(centres))
		for i := range cells {
			c := &cells[i]
			k, _ := nearestOf(c.place, centres)
			sums[k].L += c.weight * c.place.L
			sums[k].A += c.weight * c.place.A
			sums[k].B += c.weight * c.place.B
			weights[k] += c.weight
		}
		moved := false
		for k, w := range weights {
			if w == 0 {
				continue
			}
			mean := colour.Oklab{L: sums[k].L / w, A: sums[k].A / w, B: sums[k].B / w}
			moved = moved || squareApart(mean, centres[k]) > 1e-8
			centres[k] = mean
		}
		if !moved {
			break
		}
	}
	return centres
}

// weakest returns the cluster to give up: one for which too little speaks, or the lighter in
// weight of two that have come too near to each other; -1 if all may stay.
func weakest(cells []cell, centres []colour.Oklab, enough float64) int {
	weights := make([]float64, len(centres))
	for i := range cells {
		k, _ := nearestOf(cells[i].place, centres)
		weights[k] += cells[i].weight
	}
	if least := slices.Min(weights); len(centres) > 1 && least < enough {
		return slices.Index(weights, least)
	}
	weak, nearest := -1, clusterApart*clusterApart
	for i := range centres {
		for k := range i {
			if d := squareApart(centres[i], centres[k]); d < nearest {
				nearest, weak = d, i
				if weights[k] < weights[i] {
					weak = k
				}
			}
		}
	}
	return weak
}

// representatives returns for each cluster the bin whose colour stands for it: heavy, and
// near its middle. A cluster without cells has none.
func representatives(cells []cell, centres []colour.Oklab) []int {
	best, most := make([]int, len(centres)), make([]float64, len(centres))
	for i := range cells {
		k, d := nearestOf(cells[i].place, centres)
		// A cell for which nothing speaks still stands before none.
		if score := (cells[i].weight + 1e-6) / (d + clusterCore*clusterCore); score > most[k] {
			best[k], most[k] = cells[i].bin, score
		}
	}
	var bins []int
	for k := range best {
		if most[k] > 0 {
			bins = append(bins, best[k])
		}
	}
	return bins
}

// nearestOf returns the nearest of places, the first of equally near ones, and its squared
// distance.
func nearestOf(c colour.Oklab, places []colour.Oklab) (index int, square float64) {
	square = math.Inf(1)
	for i, p := range places {
		if d := squareApart(c, p); d < square {
			index, square = i, d
		}
	}
	return index, square
}

// squareApart returns the squared distance in Oklab.
func squareApart(p, q colour.Oklab) float64 {
	l, a, b := p.L-q.L, p.A-q.A, p.B-q.B
	return l*l + a*a + b*b
}
