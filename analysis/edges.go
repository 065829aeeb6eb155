package analysis

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// chosenByHand says that the chosen split is the one by edges set by hand.
const chosenByHand = -1

// setEdges cuts the lightness at edges set by hand, and reports whether it could: there are
// one to three, and none lies below the one before. Each goes to the nearest place between
// two bins, so that it is at most 0.2 L* from where it was set, and leaves at least one bin
// on either side.
func (s *Split) setEdges(edges []float64, sums *binSums) bool {
	if len(edges) == 0 || len(edges) >= MaxGroups {
		return false
	}
	for i, edge := range edges {
		if math.IsNaN(edge) || i > 0 && edge < edges[i-1] {
			return false
		}
		s.thresholds[i] = thresholdAt(edge)
	}
	s.count = len(edges) + 1
	if sums.count() == 0 {
		s.count = 0
	}
	return true
}

// thresholdAt returns the threshold whose edge is nearest to a lightness.
func thresholdAt(edge float64) int {
	edge = max(0, min(edge, 100))
	return max(0, min(int(math.Ceil(edge*colour.BinsPerLightness))-1, 254))
}
