package analysis

// steadyMargin is how much separability a better split must win before a steady Reader
// moves its edges. It stops an edge from wandering in a wide valley, where splits far apart
// are almost equally good and a cursor or a brush stroke decides between them. What it
// costs: an edge may lag behind the best one, most where nothing bounds the groups. On an
// evenly filled histogram (separability 3t(1-t) for an edge at t) that is 2.6 L*, a quarter
// of a tone. (Our choice.)
const steadyMargin = 0.002

// steadyGroupsMargin is how far a separability must pass enoughSeparability before a
// steady Reader changes the automatic number of groups. (Our choice.)
const steadyGroupsMargin = 0.01

// held is what a steady Reader keeps from frame to frame.
type held struct {
	splits [3]Split // their count and thresholds
	chosen int      // automatic choice + 1; 0: none yet
}

// Forget lets a steady Reader begin anew, as for another picture.
func (r *Reader) Forget() { r.held = held{} }

// split finds the groups and their figures.
func (r *Reader) split(groups int, edges []float64) {
	var sums binSums
	sums.set(&r.reading.Histogram)
	sums.bestSplits(&r.reading.splits)
	if r.Steady && sums.count() > 0 {
		r.held.keep(&sums, &r.reading.splits)
	}
	for i := range r.reading.splits {
		r.reading.splits[i].fill(&sums)
	}
	switch {
	case r.reading.byHand.setEdges(edges, &sums):
		r.reading.byHand.fill(&sums)
		r.reading.chosen = chosenByHand
	case groups >= 2 && groups <= MaxGroups:
		r.reading.chosen = groups - 2
	case r.Steady && sums.count() > 0:
		r.reading.chosen = fewest(&r.reading.splits, r.held.chosen-1)
		r.held.chosen = r.reading.chosen + 1
	default:
		r.reading.chosen = fewest(&r.reading.splits, -1)
	}
}

// keep puts held edges back into splits, where they still do, and holds the others.
func (h *held) keep(sums *binSums, splits *[3]Split) {
	for i := range splits {
		best, old := &splits[i], &h.splits[i]
		if old.count == best.count && old.parts(sums) &&
			sums.separability(old.Thresholds()) >= sums.separability(best.Thresholds())-steadyMargin {
			best.thresholds = old.thresholds
			continue
		}
		old.count, old.thresholds = best.count, best.thresholds
	}
}

// parts reports whether every group of s has pixels.
func (s *Split) parts(sums *binSums) bool {
	begin := 0
	for _, t := range s.Thresholds() {
		if sums.pixels[t+1] == sums.pixels[begin] {
			return false
		}
		begin = t + 1
	}
	return sums.pixels[256] > sums.pixels[begin]
}

// fewest returns the index of the split with the fewest groups that is separable enough,
// else of the last. Leaving the held one, if any (not -1), takes a margin.
func fewest(splits *[3]Split, held int) int {
	if splits[0].count < 2 {
		return 0
	}
	for i := range splits {
		limit := enoughSeparability
		switch {
		case i < held:
			limit += steadyGroupsMargin
		case i == held:
			limit -= steadyGroupsMargin
		}
		if splits[i].Separability >= limit {
			return i
		}
	}
	return len(splits) - 1
}
