package families

import (
	"cmp"
	"math"
	"slices"
)

// leastAround is the share of a disc from which a local colour is one of those in it (our choice).
const leastAround = 0.1

// Around returns which local colours of List lie in a disc, by their areas in it, the largest first; what
// has less than a tenth of the disc isn't there. x and y are shares of the picture's width and height,
// radius of its longer side.
func (f *Found) Around(x, y, radius float64) (list []int) {
	u, v, reach := x*float64(f.Width), y*float64(f.Height), radius*float64(max(f.Width, f.Height))
	counts, all := make([]int, len(f.List)), 0
	for row := max(0, int(v-reach)); row <= min(int(v+reach), f.Height-1); row++ {
		for column := max(0, int(u-reach)); column <= min(int(u+reach), f.Width-1); column++ {
			if math.Hypot(float64(column)+0.5-u, float64(row)+0.5-v) > reach {
				continue
			}
			all++
			if part := f.Map[row*f.Width+column]; part != 0 {
				counts[(part-1)/4]++
			}
		}
	}
	for i, n := range counts {
		if float64(n) >= leastAround*float64(all) && n > 0 {
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(i, j int) int { return cmp.Compare(counts[j], counts[i]) })
	return list
}
