package movement

import (
	"math/bits"
	"sort"

	"app.tonedesk/analysis/internal/pool"
)

// How corners are known again (our choice).
const (
	matchFar    = 60  // of 192: tones may differ in at most so many samples
	matchFew    = 160 // matches that are taken at first
	matchMost   = 400 // and where these lead nowhere
	matchAlike  = 3   // corners that one may be
	matchLevels = 2   // levels that a corner may have gone up or down: a zoom of 2
	matchAlone  = 30  // more than that differs at the next likely place, where there is none
	matchApart  = 3   // cells: a second corner nearer than this is the same place
)

const (
	rankLeast = -matchFar - matchAlone
	rankMost  = 3 * matchFar
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

// matcher is the memory for knowing corners again.
type matcher struct {
	all     []match
	matches []match               // those least in doubt, in order
	ofOld   []likeliest           // which corners of now look like each one of before
	old     []toned               // what is asked of each one of before again and again
	level   [cornerLevels + 1]int // the first of before of a level or a higher one
}

// toned is what a corner looks like.
type toned struct {
	tones [3]uint64
	limit int // another one is one of the likeliest if fewer tones differ
}

// match sets the matches: for each corner of now those of before that look most like it, and for
// each of before those of now, and the same of before mirrored; those first that are least in
// doubt. Where a picture is alike in many places, the likeliest alone is often another of them; and
// of a picture with few corners new strokes have more than it has itself.
func (f *matcher) match(before, now []corner) {
	f.all = f.all[:0]
	for level := range f.level {
		f.level[level] = sort.Search(len(before), func(k int) bool { return before[k].level >= level })
	}
	f.ofOld, f.old = pool.Resized(f.ofOld, len(before)), pool.Resized(f.old, len(before))
	for _, mirrored := range [2]bool{false, true} {
		for k := range f.ofOld {
			f.ofOld[k], f.old[k] = nobody, toned{before[k].tones, matchFar + 1}
		}
		for i := range now {
			n := &now[i]
			tones := n.tones
			if mirrored {
				tones = n.mirrored // of either side, it is the same
			}
			ofNew, limit := nobody, matchFar+1
			first, end := f.level[max(n.level-matchLevels, 0)], f.level[min(n.level+matchLevels+1, cornerLevels)]
			for k := first; k < end; k++ {
				o := &f.old[k]
				far := toneDistance(&o.tones, &tones)
				if far >= limit && far >= o.limit { // most
					continue
				}
				if far < limit {
					ofNew.take(&before[k], far)
					limit = ofNew[matchAlike].far
				}
				if far < o.limit {
					f.ofOld[k].take(n, far)
					o.limit = f.ofOld[k][matchAlike].far
				}
			}
			for at := range ofNew.within() {
				f.all = append(f.all, match{ofNew[at].corner, n, mirrored, ofNew[at].far, ofNew.lead(at)})
			}
		}
		for k := range before {
			l := &f.ofOld[k]
			for at := range l.within() {
				f.all = append(f.all, match{&before[k], l[at].corner, mirrored, l[at].far, l.lead(at)})
			}
		}
	}
	f.sort()
}

// sort puts those matches first that are least in doubt, and drops the rest of too many. It
// counts them by rank.
func (f *matcher) sort() {
	var at [rankMost - rankLeast + 2]int // where those of a rank begin
	for i := range f.all {
		at[f.all[i].rank()-rankLeast+1]++
	}
	for r := 1; r < len(at); r++ {
		at[r] += at[r-1]
	}
	f.matches = pool.Resized(f.matches, min(len(f.all), matchMost))
	for i := range f.all {
		r := f.all[i].rank() - rankLeast
		if at[r] < len(f.matches) {
			f.matches[at[r]] = f.all[i]
		}
		at[r]++
	}
}

// likeliest are the corners that look most like another one, at places apart, the likeliest first;
// the last only says how far the others lead.
type likeliest [matchAlike + 1]struct {
	corner *corner
	far    int
}

// nobody is likely: what differs by more than matchFar isn't alike.
var nobody = func() (l likeliest) {
	for i := range l {
		l[i].far = matchFar + 1
	}
	return l
}()

// take takes a corner among the likeliest, that differs by less than the last of them.
func (l *likeliest) take(c *corner, far int) {
	at := matchAlike
	for i := range l {
		if l[i].corner == nil || l[i].corner.close(c) {
			if l[i].corner != nil && l[i].far <= far {
				return
			}
			at = i
			break
		}
	}
	for ; at > 0 && l[at-1].far > far; at-- {
		l[at] = l[at-1]
	}
	l[at].corner, l[at].far = c, far
}

// within returns how many there are but the last one.
func (l *likeliest) within() (n int) {
	for n < matchAlike && l[n].corner != nil {
		n++
	}
	return n
}

// lead returns by how much one looks more alike than the likeliest of the others: less than 0 but
// of the first.
func (l *likeliest) lead(at int) int {
	other := 0
	if at == 0 {
		other = 1
	}
	if l[other].corner == nil {
		return matchFar + matchAlone - l[at].far
	}
	return l[other].far - l[at].far
}

// rank is lower for what is less in doubt, from rankLeast to rankMost.
func (m *match) rank() int { return 2*m.far - m.lead }

// close reports whether two corners stand for one place.
func (c *corner) close(other *corner) bool {
	if other == nil {
		return false
	}
	d := max(abs(c.x-other.x), abs(c.y-other.y))
	return d < matchApart*float32(int(1)<<(max(c.level, other.level)/2))
}

func abs(v float32) float32 { return max(v, -v) }
