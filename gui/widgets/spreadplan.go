package widgets

import (
	"math"
	"slices"
)

// Lengths of the spread at the text's plain size.
const (
	spreadFoot  = 2.5 * Step // for the value steps
	spreadPlot  = 4.5 * Step // the bars' least height
	spreadLine  = 2 * Step   // of the labels over the groups
	spreadAbove = Step       // above and below these lines
	twoLines    = 100        // from this height on there are two of them
	gripWidth   = Step
	gripHeight  = 1.5 * Step
	gripTop     = 6
	markHeight  = 3 * Step // of a spot's mark
)

// spreadSide is left and right of the bars: half the number that stands there.
func spreadSide() float32 { return round(1.5 * Step * textScale()) }

// spreadLeast is the least height of a spread.
func spreadLeast() float32 {
	return round((spreadLine+spreadAbove+spreadFoot)*textScale() + spreadPlot)
}

// spreadLines is how many lines of labels a spread of this height has; few leaves it at one.
func spreadLines(height float32, few bool) int {
	if few || height < twoLines*textScale() {
		return 1
	}
	return 2
}

// plotOf returns where the bars begin and end in a spread of this height.
func plotOf(height float32, lines int) (top, foot float32) {
	s := textScale()
	return round((float32(lines)*spreadLine + spreadAbove) * s), round(height - spreadFoot*s)
}

// spreadX returns where a lightness lies in a spread of this width.
func spreadX(lightness float64, width float32) float32 {
	return spreadSide() + float32(min(max(lightness, 0), 100)/100)*(width-2*spreadSide())
}

// spreadTopCount returns the count that is drawn at full height.
func spreadTopCount(histogram *[256]int) int {
	sorted := *histogram
	slices.Sort(sorted[:])
	top := sorted[255]
	if limit := sorted[247] * 3 / 2; sorted[247] > 0 && top > limit { // the eight highest may be spikes
		top = limit
	}
	return top
}

// spreadHeights returns the height of each bin, 0 to 1: the square root of its count over
// the highest. Up to eight bins of flat colours may have far more than all others: what is more
// than half as much again as the ninth is cut there (our choice: a hill's eight highest bins
// differ by less), so that the others are seen; cut says which.
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
