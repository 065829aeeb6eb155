package analysis

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// steadyMargin is how much separability a better split must win before a steady Reader
// moves its borders. It stops a border from wandering in a wide valley, where splits far apart
// are almost equally good and a cursor or a brush stroke decides between them. (Our choice.)
const steadyMargin = 0.002

// steadyReach is how far a border that is kept may lie from the best one of the picture alone, in
// value steps, whatever was seen before. (Our choice: a tenth of a tone is what is printed.)
const steadyReach = 0.1

// A steady Reader changes the automatic number of groups where a separability passes
// enoughSeparability by steadyGroupsMargin, or a group that is new is steadyGap tones further
// apart from the next than it must be. (Our choice.)
const (
	steadyGroupsMargin = 0.01
	steadyGap          = 0.1
)

// held is what a steady Reader keeps from frame to frame.
type held struct {
	splits [3]Split // their count and thresholds
	groups int      // automatic number of them; 0: none yet
	ground *hue     // that runs round the frame; nil: none
}

// Forget lets a steady Reader begin anew, as for another picture.
func (r *Reader) Forget() { r.held = held{} }

// split finds the groups and their figures.
func (r *Reader) split(groups int, borders []float64) {
	now := &r.reading
	rest := now.lessGround(&now.Histogram)
	var sums binSums
	now.sums(&sums, &rest)
	sums.bestSplits(&now.splits)
	if r.Steady && sums.count() > 0 {
		r.held.keep(&sums, &now.splits)
	}
	for i := range now.splits {
		now.splits[i].fill(&sums)
	}
	switch {
	case now.byHand.setBorders(borders, &sums):
		now.byHand.fill(&sums)
		now.chosen = chosenByHand
	case groups >= 2 && groups <= MaxGroups:
		now.chosen = groups - 2
	case r.Steady && sums.count() > 0:
		r.held.groups = automatic(&now.splits, r.held.groups)
		now.choose(r.held.groups, &sums)
	default:
		now.choose(automatic(&now.splits, 0), &sums)
	}
}

// sums sets the sums of a histogram that counts pixels of the picture, all or some.
func (r *Reading) sums(s *binSums, histogram *[256]int) {
	if s.set(histogram); r.deep {
		s.setPlaces(&r.places, &r.Histogram)
	}
}

// choose chooses the split into a number of groups.
func (r *Reading) choose(groups int, sums *binSums) {
	if r.chosen = groups - 2; groups > 1 {
		return
	}
	r.chosen, r.lone = chosenLone, Split{count: min(1, sums.count())}
	r.lone.fill(sums)
}

// keep puts held borders back into splits, where they still do, and holds those.
func (h *held) keep(sums *binSums, splits *[3]Split) {
	for i := range splits {
		best, old := &splits[i], &h.splits[i]
		if old.count == best.count {
			old.bound(best.Thresholds())
			if old.parts(sums) && sums.separability(old.Thresholds()) >= sums.separability(best.Thresholds())-steadyMargin {
				best.thresholds = old.thresholds
			}
		}
		old.count, old.thresholds = best.count, best.thresholds
	}
}

// bound brings the borders within reach of the best ones.
func (s *Split) bound(best []int) {
	for i, b := range best {
		value := colour.Value(borderOf(b))
		for t := &s.thresholds[i]; math.Abs(colour.Value(borderOf(*t))-value) > steadyReach; {
			if *t < b {
				*t++
			} else {
				*t--
			}
		}
	}
}

// parts reports whether every group of s has pixels.
func (s *Split) parts(sums *binSums) bool {
	begin := 0
	for _, t := range s.Thresholds() {
		if t < begin || sums.pixels[t+1] == sums.pixels[begin] {
			return false
		}
		begin = t + 1
	}
	return sums.pixels[256] > sums.pixels[begin]
}

// automatic returns the number of groups that describes a picture: of the splits whose groups are
// far enough apart the one with the fewest groups that is separable enough, else the one with the
// most; 1 if there is none. Leaving the held number, if any (not 0), takes a margin.
func automatic(splits *[3]Split, held int) int {
	groups := 1
	for i := range splits {
		s := &splits[i]
		if s.count != i+2 || !s.apart(held) {
			continue // not so many lightnesses, or masses, are there
		}
		groups = s.count
		limit := enoughSeparability
		switch {
		case held == 0:
		case groups < held:
			limit += steadyGroupsMargin
		case groups == held:
			limit -= steadyGroupsMargin
		}
		if s.Separability >= limit {
			break
		}
	}
	return groups
}

// apart reports whether neighbouring groups are far enough apart for their number to be chosen
// where another, or none (0), is held.
func (s *Split) apart(held int) bool {
	least := leastGap
	if held != 0 && s.count > held {
		least += steadyGap
	}
	for _, gap := range s.Gaps() {
		if !(gap >= least) {
			return false
		}
	}
	return true
}
