package movement

import (
	"math/bits"
	"slices"
)

// How corners are known again (our choice).
const (
	matchFar    = 60  // of 192: tones may differ in at most so many samples
	matchFew    = 160 // matches that are taken at first
	matchMost   = 400 // and where these lead nowhere
	matchLevels = 2   // levels that a corner may have gone up or down: a zoom of 2
	matchApart  = 3   // cells: a second corner nearer than this is the same place
)

// match is a corner of now that looks like one of before, or of before mirrored.
type match struct {
	before, now *corner
	mirrored    bool
	far         int // tones that differ, of 192
	lead        int // by how many fewer than of the next likely place
}

func toneDistance(a, b *[3]uint64) int {
	return bits.OnesCount64(a[0]^b[0]) + bits.OnesCount64(a[1]^b[1]) + bits.OnesCount64(a[2]^b[2])
}

// matchCorners adds for each corner of now the one of before that looks most like it, and the
// same of before mirrored, those first that are least in doubt.
func matchCorners(dst []match, before, now []corner) []match {
	dst = dst[:0]
	for i := range now {
		n := &now[i]
		for _, mirrored := range [2]bool{false, true} {
			tones := &n.tones
			if mirrored {
				tones = &n.mirrored // of either side, it is the same
			}
			if m, ok := closest(before, n, tones); ok {
				m.mirrored = mirrored
				dst = append(dst, m)
			}
		}
	}
	slices.SortFunc(dst, func(a, b match) int { return a.rank() - b.rank() })
	if len(dst) > matchMost {
		dst = dst[:matchMost]
	}
	return dst
}

// rank is lower for what is less in doubt.
func (m *match) rank() int { return 2*m.far - m.lead }

// closest returns the corner that looks most like n.
func closest(before []corner, n *corner, tones *[3]uint64) (m match, ok bool) {
	first, second := matchFar+1, matchFar+30
	var best *corner
	for i := range before {
		b := &before[i]
		if d := b.level - n.level; d > matchLevels || d < -matchLevels {
			continue
		}
		far := toneDistance(&b.tones, tones)
		switch {
		case far < first:
			if best == nil || !b.close(best) {
				second = first
			}
			first, best = far, b
		case far < second && !b.close(best):
			second = far
		}
	}
	if best == nil {
		return m, false
	}
	return match{before: best, now: n, far: first, lead: second - first}, true
}

// close reports whether two corners stand for one place.
func (c *corner) close(other *corner) bool {
	if other == nil {
		return false
	}
	d := max(abs(c.x-other.x), abs(c.y-other.y))
	return d < matchApart*float32(int(1)<<(max(c.level, other.level)/2))
}

func abs(v float32) float32 { return max(v, -v) }
