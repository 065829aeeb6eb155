package analysis

import (
	"cmp"
	"image"
	"math"
	"slices"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// Change is what happened to the lightness of a picture: the same pixels before and after.
// Both are judged by the groups of the picture before. It never changes: use it on any
// goroutine.
type Change struct {
	Width, Height int
	Counted       int // pixels that count in both
	// Distance is the earth mover's distance of the two spreads in tones; NaN if nothing is
	// counted. Source: EMD.
	Distance float64
	// Tones is by how much the mean became lighter; NaN if nothing is counted.
	Tones float64
	// MeanBefore and MeanAfter are the mean L* of what counts; NaN if nothing does.
	MeanBefore, MeanAfter float64
	// Altered is the share of the counted pixels whose value changed by more than a quarter
	// of a tone.
	Altered float64
	// Gaps are the distances in tones of neighbouring groups' means, dark to light: before
	// by the groups before, after by the picture's own best groups, as many.
	Gaps []GapShift
	// Groups are those of the picture before, dark to light.
	Groups []GroupChange
	// Moves are the pixels that now lie in another group, by the borders before; the most first.
	Moves []Move

	difference []int16 // of each pixel in hundredths of a tone, after minus before, or notCounted
}

// GroupChange is what became of one group. Where the picture after has as many groups, After
// is the mean of its group of that name, so that the groups' changes and their gaps' agree;
// else that of the pixels that belonged to the group before.
type GroupChange struct {
	Name       string
	Share      float64 // of the counted pixels that belonged to it before, 0 to 1
	ShareAfter float64 // of those that do now, by the borders before
	Before     float64 // mean L*
	After      float64 // mean L*
	Tones      float64 // value of After minus value of Before
}

// GapShift is the distance of two neighbouring groups' means.
type GapShift struct {
	Darker  string // names of the groups
	Lighter string
	Before  float64 // tones
	After   float64 // NaN if the picture after has not as many groups
}

// Move is the share of the picture that went from one group to another.
type Move struct {
	From  string
	To    string
	Share float64 // of the counted pixels, 0 to 1
}

const (
	// alteredFrom is the change of a pixel, in hundredths of a tone, from above which it counts
	// as altered: as near as a pixel has to be to a border to count as murk.
	alteredFrom = 100 * murkReach
	notCounted  = math.MinInt16
)

// joint counts pixels by their bins before and after.
type joint [256][256]int

// binned finds the bins of a picture's pixels, and of one of 16 bits adds up the places of what counts.
type binned struct {
	of     *Pixels
	bins   *fixed.Tables
	deep   *fixed.Deep // nil: of 8 bits
	places [256]int    // of deep: what they add up to in each bin
}

func binsOf(p *Pixels) *binned {
	codes := fixed.CodesOf(p.Space)
	b := &binned{of: p, bins: codes.Bins}
	if p.Rest != nil {
		b.deep = codes.Deep()
	}
	return b
}

// at returns the bin of a pixel of the picture, and the place of its lightness, which 8 bits have
// none of.
func (b *binned) at(x, y int) (bin uint8, place int, seen bool) {
	red, green, blue, seen := b.of.At(x, y)
	if b.deep != nil {
		bin, place = b.deep.PlaceOf(b.of.deepAt(x, y))
		return bin, place, seen
	}
	return b.bins.Of(red, green, blue), 0, seen
}

// mean returns the mean lightness of part of what counts; NaN of nothing.
func (b *binned) mean(part, all *[256]int) float64 {
	var sums binSums
	if sums.set(part); b.deep != nil {
		sums.setPlaces(&b.places, all)
	}
	return sums.mean(0, 256)
}

// split splits a histogram of what counts into groups, as a Reader does.
func (b *binned) split(histogram *[256]int, groups int) *Split {
	r := new(Reader)
	r.reading.Histogram, r.reading.deep, r.reading.places = *histogram, b.deep != nil, b.places
	r.split(groups, nil)
	return r.reading.Chosen()
}

// ChangeOf compares two pictures of one size; what either leaves out isn't counted. groups
// is 2, 3 or 4; anything else takes as many as the picture before needs. The error wraps
// ErrPixels.
func ChangeOf(before, after Pixels, outBefore, outAfter *Mask, groups int) (*Change, error) {
	if err := cmp.Or(before.Check(), after.Check()); err != nil {
		return nil, err
	}
	if before.Width != after.Width || before.Height != after.Height {
		return nil, ErrPixels
	}
	c := &Change{Width: before.Width, Height: before.Height, difference: make([]int16, before.Width*before.Height)}
	var pairs joint
	was, is := binsOf(&before), binsOf(&after)
	c.pass(&pairs, was, is, outBefore, outAfter)
	c.measure(&pairs, was, is, groups)
	return c, nil
}

// pass fills the difference of each pixel and counts the pairs of bins.
func (c *Change) pass(pairs *joint, was, is *binned, outBefore, outAfter *Mask) {
	var left, also Left
	left.Set(outBefore, was.of.Bounds())
	also.Set(outAfter, was.of.Bounds())
	hundredths := binHundredths()
	for y := range c.Height {
		row := c.difference[y*c.Width:][:c.Width]
		for x := 0; x < c.Width; {
			end, counted := left.NextSpan(y, x, c.Width)
			other, both := also.NextSpan(y, x, c.Width)
			end, counted = min(end, other), counted && both
			for ; x < end; x++ {
				row[x] = notCounted
				from, placeBefore, seen := was.at(x, y)
				to, placeAfter, both := is.at(x, y)
				if !counted || !seen || !both || outBefore.LeavesOut(from) || outAfter.LeavesOut(to) {
					continue
				}
				pairs[from][to]++
				was.places[from] += placeBefore
				is.places[to] += placeAfter
				row[x] = hundredths[to] - hundredths[from]
			}
		}
	}
}

// binHundredths returns the values of all bins in hundredths of a step.
func binHundredths() (h [256]int16) {
	for bin, value := range binValues() {
		h[bin] = int16(math.Round(100 * value))
	}
	return h
}

// measure takes everything but the difference out of the pairs.
func (c *Change) measure(pairs *joint, before, after *binned, groups int) {
	var was, is [256]int
	hundredths, altered := binHundredths(), 0
	for from := range pairs {
		for to, n := range pairs[from] {
			was[from] += n
			is[to] += n
			if d := int(hundredths[to]) - int(hundredths[from]); d > alteredFrom || d < -alteredFrom {
				altered += n
			}
			c.Counted += n
		}
	}
	c.Distance, c.MeanBefore, c.MeanAfter = Distance(&was, &is), before.mean(&was, &was), after.mean(&is, &is)
	c.Tones, c.Altered = math.NaN(), math.NaN()
	if c.Counted == 0 {
		return
	}
	c.Altered = float64(altered) / float64(c.Counted)
	c.Tones = colour.Value(c.MeanAfter) - colour.Value(c.MeanBefore)
	split := before.split(&was, groups)
	own := after.split(&is, max(2, split.count))
	c.gaps(split, own)
	c.regroup(split, own, pairs, func(part *[256]int) float64 { return after.mean(part, &is) })
}

func (c *Change) gaps(before, after *Split) {
	names := before.Groups()
	for i, gap := range before.Gaps() {
		g := GapShift{Darker: names[i].Name, Lighter: names[i+1].Name, Before: gap, After: math.NaN()}
		if after.count == before.count {
			g.After = after.Gaps()[i]
		}
		c.Gaps = append(c.Gaps, g)
	}
}

// regroup says what became of each group, and follows its pixels. mean is the mean lightness of some
// that count, after.
func (c *Change) regroup(split, own *Split, pairs *joint, mean func(*[256]int) float64) {
	group := func(bin int) (g int) {
		for _, t := range split.Thresholds() {
			if bin > t {
				g++
			}
		}
		return g
	}
	var moved [MaxGroups][MaxGroups]int
	var is [MaxGroups][256]int
	for from := range pairs {
		for to, n := range pairs[from] {
			moved[group(from)][group(to)] += n
			is[group(from)][to] += n
		}
	}
	for i, g := range split.Groups() {
		after := mean(&is[i])
		if own.count == split.count {
			after = own.Groups()[i].Mean
		}
		now := 0
		for from := range split.Groups() {
			now += moved[from][i]
		}
		c.Groups = append(c.Groups, GroupChange{
			Name: g.Name, Share: g.Share, ShareAfter: float64(now) / float64(c.Counted),
			Before: g.Mean, After: after, Tones: colour.Value(after) - colour.Value(g.Mean),
		})
		for j, to := range split.Groups() {
			if i != j && moved[i][j] > 0 {
				c.Moves = append(c.Moves, Move{g.Name, to.Name, float64(moved[i][j]) / float64(c.Counted)})
			}
		}
	}
	// The largest first; equal ones stay from dark to light.
	slices.SortStableFunc(c.Moves, func(a, b Move) int { return cmp.Compare(b.Share, a.Share) })
}

// At returns by how many tones a pixel became lighter, within a hundredth; false where it
// isn't counted or outside the picture.
func (c *Change) At(x, y int) (tones float64, counted bool) {
	if !image.Pt(x, y).In(image.Rect(0, 0, c.Width, c.Height)) {
		return 0, false
	}
	d := c.difference[y*c.Width+x]
	return float64(d) / 100, d != notCounted
}
