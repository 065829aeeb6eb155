package analysis

// Target is a picture's spread of lightness as the plan to paint toward. It keeps nothing of
// the Reading it was made of, and never changes: use it on any goroutine.
type Target struct {
	histogram [256]int
	split     Split
}

// NewTarget makes the plan of a picture, by the borders of its chosen groups. It counts the ground,
// as Match does, also where that is left out of the groups.
func NewTarget(r *Reading) *Target {
	t := &Target{r.Histogram, *r.Chosen()}
	if r.groundCount > 0 {
		var sums binSums
		r.sums(&sums, &t.histogram)
		t.split.fill(&sums)
	}
	return t
}

// Histogram returns the target's counts of pixels, as in Reading.
func (t *Target) Histogram() *[256]int { return &t.histogram }

// Groups returns the target's groups, from dark to light.
func (t *Target) Groups() []Group { return t.split.Groups() }

// GroupMatch is what a picture has of one of the target's groups.
type GroupMatch struct {
	Name   string  // "dark", "middle" ..., the target's
	Share  float64 // of the picture's counted pixels within the target's borders, 0 to 1
	Target float64 // the target's own share
	More   float64 // Share minus Target: negative where the picture has less
}

// Match is how a picture stands to its target.
type Match struct {
	// Distance is the earth mover's distance of the two spreads in tones; NaN if nothing is
	// counted in either.
	Distance float64

	count  int
	groups [MaxGroups]GroupMatch
}

// Groups returns the matching of shares, from dark to light; none where nothing is counted
// in the picture or in the target.
func (m *Match) Groups() []GroupMatch { return m.groups[:m.count] }

// Match compares a picture's spread with the target: how far apart the two are, and how
// much of the picture lies between the target's own borders.
func (t *Target) Match(r *Reading) Match {
	m := Match{Distance: Distance(&r.Histogram, &t.histogram)}
	if r.Counted == 0 {
		return m
	}
	m.count = t.split.count
	thresholds, first := t.split.Thresholds(), 0
	for i, g := range t.split.Groups() {
		end := len(r.Histogram)
		if i < len(thresholds) {
			end = thresholds[i] + 1
		}
		share := float64(countOf(r.Histogram[first:end])) / float64(r.Counted)
		first = end
		m.groups[i] = GroupMatch{g.Name, share, g.Share, share - g.Share}
	}
	return m
}
