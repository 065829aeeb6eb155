package analysis

import (
	"image"
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
)

// MostGrey is of how many pixels a picture may be for its Reading to hold the lightness of
// each: more than any display shows; what is larger comes out of a file, and takes most of
// the memory there is (our choice).
const MostGrey = 40_000_000

// rowsPerPiece is how many rows a worker takes at a time: a few dozen microseconds' work.
const rowsPerPiece = 24

// Options says how to read a picture.
type Options struct {
	Groups int // 2, 3 or 4; anything else chooses the fewest that describe the picture
	// Borders are those of the groups, set by hand, L*: one to three, in rising order. They make
	// the chosen split, whatever Groups says; anything else leaves it to Groups.
	Borders []float64
	Mask    *Mask // what is left out; nil for nothing
	// WithoutGround leaves the ground out of the groups, where there is one; every other figure
	// counts it.
	WithoutGround bool
}

// Key says how light a picture is as a whole: "low" where the mean's value is under 4,
// "high" where it is over 6, "middle" between. Empty if nothing was counted.
type Key string

const (
	LowKey    Key = "low"
	MiddleKey Key = "middle"
	HighKey   Key = "high"
)

// Reading is what one pass over a picture tells. Lightness is L*, 0 to 100; figures are
// NaN if no pixel was counted.
type Reading struct {
	Width, Height int
	Grey          []uint8  // each pixel's L* as round(2.55 L*), rows Width apart; also what is left out; nil beyond MostGrey
	Histogram     [256]int // counted pixels; bin i holds the L* that round to i/2.55
	Counted       int      // pixels, the histogram's sum
	Mean          float64  // mean lightness, from the bins, or of all 16 bits
	// P1, P50 and P99 are percentiles: the lightness of the lowest bin, or of 16 bits, at which
	// the share of the pixels up to and with it reaches 1, 50 and 99 percent.
	P1, P50, P99 float64
	Key          Key
	Ground       Ground // whether the groups are without it

	ground      [256]int // pixels that are left out of the groups as the ground
	groundCount int

	deep   bool     // the picture has 16 bits a channel
	places [256]int // of its counted pixels: what the places of their lightness add up to in each bin

	splits [3]Split // for 2, 3 and 4 groups
	byHand Split    // by the edges set by hand
	lone   Split    // all of it as one group
	chosen int      // index into splits, or one of the below
}

// Reader reads one frame after another without allocating. It owns its buffers and its
// goroutines: not for concurrent use, and to be closed.
type Reader struct {
	// Steady keeps the borders of groups, and the automatic number of groups, from one frame to the
	// next until another split is clearly better (see steadyMargin), so that they don't
	// jitter. Without it every Reading is the picture's alone.
	Steady bool

	workers     *pool.Workers
	pixels      Pixels
	bins        *fixed.Tables // of the pixels' space
	left        Left          // out
	grey        []uint8
	rows        [][]uint8 // of larger pictures, one a worker
	tallies     []tally   // one a worker
	ignored     []tally   // what is left out by its place, one a worker
	counts      [256]int  // what is counted of the last picture, also of lightness that is left out
	kept        kept
	reread      func(worker, piece int) // rereadRows, made once
	ground      groundFinder
	countGround func(worker, piece int) // groundRows, made once
	deep        []deepCounts            // of a picture of 16 bits, one a worker
	held        held
	reading     Reading
}

// NewReader returns a Reader that works on all cores.
func NewReader() *Reader {
	r := new(Reader)
	r.workers = pool.New(r.readRows)
	r.tallies = make([]tally, r.workers.Workers())
	r.ignored = make([]tally, r.workers.Workers())
	r.rows = make([][]uint8, r.workers.Workers())
	r.ground.runs = make([][]cellRun, r.workers.Workers())
	r.ground.tallies = make([]lanes, r.workers.Workers())
	r.kept.gone = make([]lanes, r.workers.Workers())
	r.countGround, r.reread = r.groundRows, r.rereadRows
	return r
}

// Close ends the Reader's goroutines. Its last Reading stays valid.
func (r *Reader) Close() { r.workers.Close() }

// Read reads a picture on its own.
func Read(p Pixels, o Options) *Reading {
	r := NewReader()
	defer r.Close()
	return r.Read(p, o)
}

// Read reads one frame. The Reading is valid until the next Read. Pixels that fail Check
// are read as an empty picture.
func (r *Reader) Read(p Pixels, o Options) *Reading { return r.ReadChanged(p, o, p.Bounds()) }

// ReadChanged is Read for a frame that differs from the one read before in changed at most, in
// the frame's own pixels; empty for nowhere. Only that is read again, as far as what is left out
// and the frame's size are as before, and what it says is exactly what Read does.
func (r *Reader) ReadChanged(p Pixels, o Options, changed image.Rectangle) *Reading {
	if p.Check() != nil || p.Width == 0 || p.Height == 0 {
		p = Pixels{}
	}
	r.ground.wanted = o.WithoutGround
	r.left.Set(o.Mask, p.Bounds())
	r.bins = fixed.CodesOf(p.Space).Bins
	r.ground.look(&p, &r.left, o.Mask, r.held.ground)
	changed, whole := r.toRead(&p, o.Mask, changed)
	r.kept.whole = false // until it is read to the end
	if whole {
		r.pass(p)
	} else {
		r.passChanged(p, changed)
	}
	r.reading.gather(&r.counts, o.Mask)
	r.leaveOutGround(p, o, changed)
	r.kept.keep(r, &p, o.Mask)
	r.gatherDeep(p.Rest != nil, o.Mask)
	r.reading.measure()
	r.split(o.Groups, o.Borders)
	return &r.reading
}

// pass fills the grey plane and the counts.
func (r *Reader) pass(p Pixels) {
	size := p.Width * p.Height
	if size > MostGrey {
		r.grey = nil
		for i := range r.rows {
			r.rows[i] = pool.Resized(r.rows[i], p.Width)
		}
	} else {
		r.grey = pool.Resized(r.grey, size)
	}
	clear(r.tallies)
	if p.Rest != nil && r.deep == nil {
		r.deep = make([]deepCounts, r.workers.Workers())
	}
	r.pixels = p
	r.reading.Width, r.reading.Height, r.reading.Grey = p.Width, p.Height, r.grey
	r.workers.Do((p.Height + rowsPerPiece - 1) / rowsPerPiece)
	r.pixels = Pixels{} // the frame isn't ours to keep
	r.counts, r.kept.clear = [256]int{}, false
	r.addTallies()
}

// addTallies adds what was counted to the counts.
func (r *Reader) addTallies() {
	for i := range r.tallies {
		t := &r.tallies[i]
		for bin := range r.counts {
			r.counts[bin] += int(t.even[bin]) + int(t.odd[bin])
			r.kept.clear = r.kept.clear || t.even[256+bin]|t.odd[256+bin] != 0
		}
	}
}

func (r *Reader) readRows(worker, piece int) {
	p := &r.pixels
	first := piece * rowsPerPiece
	for y := first; y < min(first+rowsPerPiece, p.Height); y++ {
		dst := r.rows[worker]
		if r.grey != nil {
			dst = r.reading.GreyRow(y)
		}
		for x := 0; x < p.Width; {
			end, counted := r.left.NextSpan(y, x, p.Width)
			r.binPart(worker, counted, dst[x:end], x, y)
			x = end
		}
		if r.ground.is {
			r.ground.row(p, y, dst, 0, p.Width)
		}
	}
}

// gather takes over the counts, without the lightness that is left out.
func (r *Reading) gather(counts *[256]int, out *Mask) {
	r.Counted = 0
	for bin, n := range counts {
		if out.LeavesOut(uint8(bin)) {
			n = 0
		}
		r.Histogram[bin] = n
		r.Counted += n
	}
}

// measure fills the figures that need the histogram alone.
func (r *Reading) measure() {
	if r.deep { // percentiles are there
		r.Mean = meanOfPlaces(&r.places, r.Counted)
	} else {
		r.Mean = meanOf(&r.Histogram)
		r.P1, r.P50, r.P99 = r.percentile(1), r.percentile(50), r.percentile(99)
	}
	r.Key = keyOf(r.Mean)
}

// countOf returns how many pixels some bins hold.
func countOf(bins []int) (count int) {
	for _, n := range bins {
		count += n
	}
	return count
}

// meanOf returns the mean lightness of a histogram; NaN if it is empty.
func meanOf(histogram *[256]int) float64 {
	sum := 0
	for bin, n := range histogram {
		sum += bin * n
	}
	return colour.LightnessOfBins(sum, countOf(histogram[:]))
}

// percentile returns the lightness of the lowest bin whose cumulated share reaches percent.
func (r *Reading) percentile(percent int) float64 {
	if r.Counted == 0 {
		return math.NaN()
	}
	below := 0
	for bin, n := range r.Histogram {
		below += n
		if 100*below >= percent*r.Counted {
			return colour.LightnessOfBins(bin, 1)
		}
	}
	return 100
}

func keyOf(mean float64) Key {
	switch value := colour.Value(mean); {
	case math.IsNaN(mean):
		return ""
	case value < 4:
		return LowKey
	case value > 6:
		return HighKey
	}
	return MiddleKey
}

// Share returns the share of the pixels that are counted; NaN of an empty picture.
func (r *Reading) Share() float64 { return float64(r.Counted) / (float64(r.Width) * float64(r.Height)) }

// GreyRow returns a row of the grey plane, which is there.
func (r *Reading) GreyRow(y int) []uint8 { return r.Grey[y*r.Width:][:r.Width] }
