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

// leastBeside is the share of places from which they lie in a local colour (our choice: most of them).
const leastBeside = 0.5

// Under returns in which local colour of List most of some places lie, whichever of its parts; ok is
// false where in none. places calls do with each, in shares of the picture's width and height.
func (f *Found) Under(places func(do func(x, y float64))) (i int, ok bool) {
	counts, all := make([]int, len(f.List)), 0
	places(func(x, y float64) {
		all++
		u, v := int(math.Floor(x*float64(f.Width))), int(math.Floor(y*float64(f.Height)))
		if u < 0 || v < 0 || u >= f.Width || v >= f.Height {
			return
		}
		if part := f.Map[v*f.Width+u]; part != 0 {
			counts[(part-1)/4]++
		}
	})
	for k := range counts {
		if counts[k] > counts[i] {
			i = k
		}
	}
	return i, len(counts) > 0 && all > 0 && float64(counts[i]) > leastBeside*float64(all)
}
