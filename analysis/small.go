package analysis

import "math"

// SmallSize returns the size of a picture whose longer side is made longer pixels; no side
// grows.
func SmallSize(width, height, longer int) (smallWidth, smallHeight int) {
	whole := max(width, height)
	if whole <= longer {
		return width, height
	}
	by := func(side int) int { return min(side, max(1, (2*side*longer+whole)/(2*whole))) }
	return by(width), by(height)
}

// GapChange is what becomes of the gap between two neighbouring groups, in tones, when a
// picture is made small.
type GapChange struct {
	Whole float64 // the gap in the whole picture
	Small float64 // the gap in the small one; NaN if it has fewer groups
}

// GapMeter measures what becomes of the gaps when a picture is made small. It keeps the
// memory that this needs; the zero value is ready, for one goroutine at a time.
type GapMeter struct {
	sums   binSums
	splits [3]Split
	byHand Split
}

// Changes appends to dst what becomes of the gaps of the chosen groups of whole, from dark
// to light, when the picture is made small, in linear light. The small picture, of which
// histogram counts the pixels by bin, is split anew, into as many groups; edges set by hand
// stay where they are. Where the ground is left out of the groups of whole, it is here too.
func (m *GapMeter) Changes(dst []GapChange, histogram *[256]int, whole *Reading) []GapChange {
	chosen, small := whole.Chosen(), &m.byHand
	rest := whole.lessGround(histogram)
	m.sums.set(&rest)
	switch whole.chosen {
	case chosenLone:
		return dst
	case chosenByHand:
		m.byHand = Split{count: chosen.count, thresholds: chosen.thresholds}
		if m.sums.count() == 0 {
			m.byHand.count = 0
		}
	default:
		m.sums.bestSplits(&m.splits)
		small = &m.splits[max(0, chosen.count-2)]
	}
	small.fill(&m.sums)
	for i, gap := range chosen.Gaps() {
		change := GapChange{Whole: gap, Small: math.NaN()}
		if small.count == chosen.count {
			change.Small = small.Gaps()[i]
		}
		dst = append(dst, change)
	}
	return dst
}
