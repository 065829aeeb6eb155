package widgets

import (
	"cmp"
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/wording"
)

// Lengths of the spread.
const (
	spreadHeight = 16 * Step
	spreadTop    = 3 * Step // for the shares
	spreadFoot   = 3 * Step // for the value steps
	spreadSide   = 2 * Step
	gripWidth    = Step
	gripHeight   = 0.75 * Step
	markHeight   = 3 * Step   // of a mark that stands alone
	markStep     = 1.5 * Step // by which marks near each other differ, at most
	markReach    = 1.75 * Step
)

// spreadX returns where a lightness lies in a spread of this width.
func spreadX(lightness float64, width float32) float32 {
	return spreadSide + float32(min(max(lightness, 0), 100)/100)*(width-2*spreadSide)
}

// spreadTopCount returns the count that is drawn at full height.
func spreadTopCount(histogram *[256]int) int {
	sorted := *histogram
	slices.Sort(sorted[:])
	top := sorted[255]
	if limit := 16 * sorted[247]; sorted[247] > 0 && top > limit { // the eight highest may be spikes
		top = limit
	}
	return top
}

// spreadHeights returns the height of each bin, 0 to 1: the square root of its count over
// the highest, where a bin that is more than four times as high as all others is cut to
// their measure; cut says which.
func spreadHeights(histogram *[256]int) (heights [256]float64, cut [256]bool) {
	top := spreadTopCount(histogram)
	for i, count := range histogram {
		cut[i] = count > top
	}
	return targetHeights(histogram, histogram), cut
}

// targetHeights returns the heights of a target's bins beside those of a histogram, as if
// both counted equally many pixels.
func targetHeights(target, histogram *[256]int) [256]float64 {
	var heights [256]float64
	ours, theirs := 0, 0
	for i := range target {
		ours += histogram[i]
		theirs += target[i]
	}
	if ours == 0 || theirs == 0 {
		return heights
	}
	top := spreadTopCount(histogram)
	for i, count := range target {
		heights[i] = math.Sqrt(min(float64(count)*float64(ours)/float64(theirs)/float64(top), 1))
	}
	return heights
}

// columnBins returns the bins, from first to before last, that column x of width shows.
func columnBins(x, width int) (first, last int) {
	first = min(x*256/width, 255)
	return first, min(max((x+1)*256/width, first+1), 256)
}

// shareLabel is a group's share in words, and where the words begin.
type shareLabel struct {
	words string
	x     float32
}

// shareLabels places the groups' shares above their groups, in a spread of this width.
// Where not all names fit, the narrowest groups go without, and so does a group whose words
// would stand over another. Words are pushed aside rather than left out.
func shareLabels(groups []analysis.Group, width float32, measure func(string) float32) []shareLabel {
	labels, order, shares := make([]shareLabel, len(groups)), make([]int, len(groups)), wording.GroupShares(groups)
	for i, g := range groups {
		labels[i].words, order[i] = g.Name+" "+shares[i], i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(groups[a].To-groups[a].From, groups[b].To-groups[b].From)
	})
	shorten := func(i int) { labels[i].words = shares[i] }
	for _, i := range order { // from the narrowest group
		if placeShares(labels, groups, width, measure) {
			break
		}
		shorten(i)
	}
	for i := range groups {
		placeShares(labels, groups, width, measure)
		middle := labels[i].x + measure(labels[i].words)/2
		if middle < spreadX(groups[i].From, width) || middle > spreadX(groups[i].To, width) {
			shorten(i)
		}
	}
	placeShares(labels, groups, width, measure)
	return labels
}

// placeShares puts the words over the middles of their groups, pushed apart where they
// would meet, and reports whether there is room for all.
func placeShares(labels []shareLabel, groups []analysis.Group, width float32, measure func(string) float32) bool {
	left := Step / 2
	for i, g := range groups {
		w := measure(labels[i].words)
		labels[i].x = max((spreadX(g.From, width)+spreadX(g.To, width)-w)/2, left)
		left = labels[i].x + w + Step
	}
	right := width - Step/2
	for i := range slices.Backward(labels) {
		labels[i].x = min(labels[i].x, right-measure(labels[i].words))
		right = labels[i].x - Step
	}
	return len(labels) == 0 || labels[0].x >= Step/2
}

// markHeights returns how high the marks at xs are, in a plot of this height. Of marks near
// each other the one to the left is the higher, so that no line crosses the letter that
// stands at its right.
func markHeights(xs []float32, plot float32) []float32 {
	order := make([]int, len(xs))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(xs[a], xs[b]) })
	levels, most := make([]int, len(xs)), 0
	for n := len(order) - 2; n >= 0; n-- {
		if i, next := order[n], order[n+1]; xs[next]-xs[i] < markReach {
			levels[i] = levels[next] + 1
			most = max(most, levels[i])
		}
	}
	step, lowest := markStep, markHeight
	if most > 0 {
		step = min(step, (plot-markHeight/2-Step/2)/float32(most))
		lowest = min(lowest, plot-Step/2-step*float32(most))
	}
	heights := make([]float32, len(xs))
	for i, level := range levels {
		heights[i] = lowest + step*float32(level)
	}
	return heights
}
