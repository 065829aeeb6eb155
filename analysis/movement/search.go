package movement

import "slices"

// How a transform is looked for (our choice).
const (
	searchRough  = 4    // level at which guesses are weighed
	searchCoarse = 2    // level at which they are bettered
	searchTried  = 6    // guesses that are
	searchLeast  = 3    // matches that a guess has at least
	searchSame   = 10.0 // cells: guesses nearer than this come to the same
	searchPlain  = 1.2  // pixels by which a transform may differ from one that neither zooms nor turns freely, to be that
	searchHands  = 6    // guesses whether it may be mirrored
	searchHand   = 0.5  // of the edges that the best one explains, those that such a guess does at least
	searchSteps  = 6    // by which it is bettered at the finest level
)

// When a transform is believed (our choice). Strokes that are new leave edges that were not
// there before, and cover some that were.
const (
	sureKept   = 0.6  // of the edges before, those that are there
	sureOld    = 0.2  // of the edges now, those that were there
	sureAlone  = 0.8  // of either, for no other transform to be looked for: in a picture that is alike in many places another may be as sure
	sureToned  = 0.75 // of all that both pictures show, what has its tone
	sureEdges  = 1.35 // edges of either that both show, by the cells across: about an edge as long as the picture is wide, being three cells wide and every second row looked at
	sureBlur   = 0.1  // cells: one standard deviation of what noise leaves open, at the worst place
	sureWell   = 30   // matches that agree, for it to be twice that: many corners leave no way open
	sureOther  = 0.6  // of what it explains, what quite another transform does at most
	likelyKept = 0.5  // of the edges before: it may well be
	likelyTone = 0.5  // of all that both show: the same
	likelyMore = 0.2  // more of them than where nothing has moved
	movedLeast = 0.75 // pixels: less adds up
)

// candidate is a transform that was looked at closer.
type candidate struct {
	aligned
	checked
	stay   checked // how well it is explained that nothing has moved
	other  float64 // how much of what it explains another one does
	across float64 // cells of the picture
	small  bool    // hardly anything has moved
	known  int     // corners that are known again by it
}

func (c *candidate) sure() bool {
	return c.ok && c.kept > sureKept && c.old > sureOld && c.toned > sureToned && float64(min(c.edges, c.after)) > sureEdges*c.across &&
		c.blur < c.mostBlur() && c.other < sureOther && c.kept > c.stay.kept && c.known >= searchLeast
}

func (c *candidate) mostBlur() float64 {
	if c.known >= sureWell {
		return 2 * sureBlur
	}
	return sureBlur
}

// likely reports whether it may well be: it explains much, and more than that nothing has moved.
func (c *candidate) likely() bool {
	return c.ok && c.kept > likelyKept && c.toned > likelyTone && c.kept > c.stay.kept+likelyMore && c.there() > c.stay.there()
}

// search returns the transform that explains the picture best. It looks twice, unless the first is
// without doubt: the second time at more guesses.
func (f *Finder) search(e *edgeCount) (best candidate) {
	f.aligner.before, f.aligner.now = f.before, f.now
	f.corners.find(f.before)
	f.corners.find(f.now)
	f.match(f.before.corners, f.now.corners)
	stay := f.aligner.check(Transform{}, 0)
	for _, wide := range [2]bool{false, true} {
		f.candidates = f.candidates[:0]
		if e.held() > edgesStand {
			f.try(Transform{})
		}
		if wide {
			f.guess(f.guesses[:], matchMost)
		} else {
			f.guess(f.guesses[:guessFew], matchFew)
		}
		if best = f.best(); best.ok {
			best = f.fine(best)
			best.other = f.mostOther(&best)
		}
		best.stay, best.across, best.known = stay, 2*f.aligner.halfX, f.agreeing(best.by)
		if best.sure() && max(best.kept, best.old) > sureAlone && !f.otherHand(best.by) {
			break
		}
	}
	best.small = best.ok && best.kept > sureKept && best.toned > sureToned &&
		best.by.apart(Transform{}, f.aligner.halfX, f.aligner.halfY)*float64(f.now.size) < movedLeast
	return best
}

// agreeing returns how many matches agree with a transform.
func (f *Finder) agreeing(t Transform) (n int) {
	for i := range f.matches {
		if f.matches[i].agrees(&t) {
			n++
		}
	}
	return n
}

// otherHand reports whether the picture may as well be mirrored, or not: of one that is alike on two
// sides both explain much.
func (f *Finder) otherHand(t Transform) bool {
	f.others = f.others[:0]
	for i := range f.matches[:min(len(f.matches), matchFew)] {
		if m := &f.matches[i]; m.mirrored != t.mirrored {
			f.others = append(f.others, *m)
		}
	}
	g, least := guesses(f.guesses[:searchHands]), searchHand*f.aligner.check(t, searchRough).kept
	f.guesser.from(g, f.others, f.aligner.halfX/2, f.aligner.halfY/2)
	for i := range g {
		if g[i].support >= searchLeast && f.aligner.check(g[i].by, searchRough).kept > least {
			return true
		}
	}
	return false
}

// guess takes guesses among the candidates.
func (f *Finder) guess(g guesses, matches int) {
	f.guesser.from(g, f.matches[:min(matches, len(f.matches))], f.aligner.halfX/2, f.aligner.halfY/2)
	for i := range g {
		if g[i].support < searchLeast {
			g[i].support = 0
			continue
		}
		g[i].support = f.aligner.check(g[i].by, searchRough).rank()
	}
	slices.SortStableFunc(g, func(a, b guess) int { return b.support - a.support })
	for i := 0; i < searchTried && g[i].support > 0; i++ {
		f.try(g[i].by)
	}
}

// try betters a guess at a coarse level and takes it among the candidates.
func (f *Finder) try(t Transform) {
	for _, c := range f.candidates {
		if c.by.mirrored == t.mirrored && c.support() > 0 && f.apart(c.by, t) < searchSame {
			return // it would come to the same
		}
	}
	c := candidate{aligned: f.aligner.align(t, searchCoarse, alignSteps, false)}
	if c.ok {
		c.checked = f.aligner.check(c.by, searchCoarse)
		f.candidates = append(f.candidates, c)
	}
}

// apart returns how many cells apart two transforms put places in the middle of the picture.
func (f *Finder) apart(a, b Transform) float64 {
	return a.apart(b, f.aligner.halfX/2, f.aligner.halfY/2)
}

// best returns the candidate that explains most.
func (f *Finder) best() (best candidate) {
	for _, c := range f.candidates {
		if !best.ok || c.support() > best.support() {
			best = c
		}
	}
	return best
}

// mostOther returns how much another candidate explains, of what the best one does, and how fully: a canvas
// turned by a half has its rim where it was, which may be many edges, but not much else. They were bettered
// at the coarse level, where the best one may have been far from what it has become: it is asked again.
func (f *Finder) mostOther(best *candidate) (most float64) {
	if !best.ok {
		return 0
	}
	own := f.aligner.check(best.by, searchCoarse)
	for _, c := range f.candidates {
		if best.by.mirrored != c.by.mirrored || f.apart(best.by, c.by) > guessSame {
			most = max(most, c.support()/max(own.support(), 1)*min(1, c.kept/own.kept))
		}
	}
	return most
}

// fine betters a candidate at the finest level, and makes it plain where it hardly differs
// from that.
func (f *Finder) fine(c candidate) candidate {
	c.aligned = f.aligner.align(c.by, 0, searchSteps, false)
	if !c.ok {
		return c
	}
	p, ok := plainest(c.by)
	if ok && p.apart(c.by, f.aligner.halfX, f.aligner.halfY)*float64(f.now.size) < searchPlain {
		if a := f.aligner.align(p, 0, searchSteps, true); a.ok {
			c.aligned = a
		}
	}
	c.checked = f.aligner.check(c.by, 0)
	return c
}

// plainest returns the transform that doesn't zoom, turns by quarters and shifts as t does; ok
// is false where t is far from that.
func plainest(t Transform) (p Transform, ok bool) {
	p = t
	switch a, b := 1+t.a, t.b; {
	case a > 0.9:
		p.a, p.b = 0, 0
	case a < -0.9:
		p.a, p.b = -2, 0
	case b > 0.9:
		p.a, p.b = -1, 1
	case b < -0.9:
		p.a, p.b = -1, -1
	default:
		return p, false
	}
	return p, true
}
