package analysis

import (
	"encoding/binary"
	"image"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
)

// Grower finds what hangs together with places of one picture after another, without
// allocating once it has seen one like it. It owns its buffers and its goroutines: not for
// concurrent use, and to be closed.
//
// Pixels are like a seed up to its distance in L*a*b*. Neighbours across and down that are
// like any seed hang together; grown are the parts that hold a seed's place or meet the
// picture's border, for which what is left out by areas counts as well. The same picture and
// seeds give the same part, whatever was seen before.
type Grower struct {
	workers *pool.Workers
	pixels  Pixels
	left    Left // by areas alone
	likes   likes
	caches  []likeCache // one a worker
	pieces  [][]run     // found by row of pieces, rows one after the other
	ends    []int32     // where each row ends in its piece
	parent  []int32     // of each run, see root; the root of what is grown is marked in kept
	kept    []bool
	grown   Grown
}

// NewGrower returns a Grower that works on all cores.
func NewGrower() *Grower {
	g := new(Grower)
	g.workers = pool.New(g.findRows)
	g.caches = make([]likeCache, g.workers.Workers())
	return g
}

// Close ends the Grower's goroutines. What it grew last stays valid.
func (g *Grower) Close() { g.workers.Close() }

// Grow finds what hangs together with seeds in one picture on its own; nil without seeds.
func Grow(p Pixels, areas []image.Rectangle, seeds []Seed) *Grown {
	if len(seeds) == 0 {
		return nil
	}
	g := NewGrower()
	defer g.Close()
	return g.Grow(p, areas, seeds)
}

// mostRuns bounds the memory that a picture of noise may take: 12 bytes a run (our choice). A
// picture with more runs of like pixels has nothing that hangs together in a painter's sense;
// nothing is grown in it.
const mostRuns = 1 << 22

// Grow returns what hangs together with seeds, valid until the next Grow; nil without seeds.
// Pixels that fail Check are an empty picture. areas are left out anyway; see Mask.
func (g *Grower) Grow(p Pixels, areas []image.Rectangle, seeds []Seed) *Grown {
	if len(seeds) == 0 {
		return nil
	}
	if p.Check() != nil || p.Width == 0 {
		p = Pixels{}
	}
	seeds = seeds[:min(len(seeds), MostSeeds)]
	if g.likes.set(p.Space, seeds) {
		clear(g.caches)
	}
	g.grown.Seeds = append(g.grown.Seeds[:0], seeds...)
	g.grown.Width, g.grown.Height = p.Width, p.Height
	g.pixels = p
	g.left.Set(&Mask{Areas: areas}, p.Bounds())
	pieces := (p.Height + rowsPerPiece - 1) / rowsPerPiece
	for len(g.pieces) < pieces {
		g.pieces = append(g.pieces, nil)
	}
	g.ends = pool.Resized(g.ends, p.Height)
	g.workers.Do(pieces)
	g.join(pieces)
	g.pixels = Pixels{} // the frame isn't ours to keep
	return &g.grown
}

// findRows finds the runs of one piece: what is like a seed, or left out by an area.
func (g *Grower) findRows(worker, piece int) {
	runs := g.pieces[piece][:0]
	first := piece * rowsPerPiece
	for y := first; y < min(first+rowsPerPiece, g.pixels.Height); y++ {
		begun := len(runs)
		for x := 0; x < g.pixels.Width; {
			end, counted := g.left.NextSpan(y, x, g.pixels.Width)
			if counted {
				runs = g.likeRuns(runs, begun, &g.caches[worker], y, x, end)
			} else {
				runs = addRun(runs, begun, x, end)
			}
			x = end
		}
		g.ends[y] = int32(len(runs))
	}
	g.pieces[piece] = runs
}

// addRun adds a run to those of a row, which begin at begun.
func addRun(runs []run, begun, from, to int) []run {
	if last := len(runs) - 1; last >= begun && int(runs[last].to) == from {
		runs[last].to = int32(to)
		return runs
	}
	return append(runs, run{int32(from), int32(to)})
}

// likeRuns adds the runs of pixels that are like a seed, from column x up to end. Painted
// pictures are full of flat patches: pixels as the one before need no look.
func (g *Grower) likeRuns(runs []run, begun int, cache *likeCache, y, x, end int) []run {
	row := g.pixels.Row(y)[PixelBytes*x : PixelBytes*end]
	red, blue, opaque := 0, 16, uint32(0)
	if g.pixels.Layout == BGRX {
		red, blue, opaque = 16, 0, OpaqueWord
	}
	var last uint32 // transparent
	like, from := false, x
	pair, opaques := uint64(0), uint64(opaque)<<32|uint64(opaque) // of last
	for at := x; at < end; at++ {
		for len(row) >= 2*PixelBytes && binary.LittleEndian.Uint64(row)|opaques == pair && pair != 0 {
			row, at = row[2*PixelBytes:], at+2
		}
		if at == end {
			break
		}
		w := binary.LittleEndian.Uint32(row) | opaque
		row = row[PixelBytes:]
		if w == last {
			continue
		}
		last, pair = w, uint64(w)<<32|uint64(w)
		now := w>>24 != 0 && cache.like(&g.likes, w>>red&255|w&0xff00|w>>blue&255<<16)
		if now == like {
			continue
		}
		if like {
			runs = addRun(runs, begun, from, at)
		}
		like, from = now, at
	}
	if like {
		runs = addRun(runs, begun, from, end)
	}
	return runs
}

// join brings all runs together and keeps those of the parts that are grown.
func (g *Grower) join(pieces int) {
	all, total := &g.grown, 0
	for _, piece := range g.pieces[:pieces] {
		total += len(piece)
	}
	all.first, all.runs = append(all.first[:0], 0), all.runs[:0]
	if total > mostRuns {
		for range g.pixels.Height {
			all.first = append(all.first, 0)
		}
		return
	}
	for i, piece := range g.pieces[:pieces] {
		before := int32(len(all.runs))
		all.runs = append(all.runs, piece...)
		for y := i * rowsPerPiece; y < min((i+1)*rowsPerPiece, g.pixels.Height); y++ {
			all.first = append(all.first, before+g.ends[y])
		}
	}
	g.connect()
	g.keep()
}

// connect joins runs that lie one above the other.
func (g *Grower) connect() {
	all := &g.grown
	g.parent = pool.Resized(g.parent, len(all.runs))
	for i := range g.parent {
		g.parent[i] = int32(i)
	}
	for y := 1; y < all.Height; y++ {
		above, i := all.first[y-1], all.first[y]
		for above < all.first[y] && i < all.first[y+1] {
			a, b := all.runs[above], all.runs[i]
			if a.from < b.to && b.from < a.to {
				g.unite(above, i)
			}
			if a.to < b.to {
				above++
			} else {
				i++
			}
		}
	}
}

// unite joins the parts of two runs; the earlier root stays.
func (g *Grower) unite(i, k int32) {
	i, k = g.root(i), g.root(k)
	g.parent[max(i, k)] = min(i, k)
}

// root returns the first run of the part that a run belongs to.
func (g *Grower) root(i int32) int32 {
	for g.parent[i] != i {
		g.parent[i] = g.parent[g.parent[i]]
		i = g.parent[i]
	}
	return i
}

// keep drops the runs of parts that neither meet the border nor hold a seed's place.
func (g *Grower) keep() {
	all := &g.grown
	g.kept = pool.Resized(g.kept, len(all.runs))
	clear(g.kept)
	for y := range all.Height {
		for i := all.first[y]; i < all.first[y+1]; i++ {
			if r := all.runs[i]; y == 0 || y == all.Height-1 || r.from == 0 || int(r.to) == all.Width {
				g.kept[g.root(i)] = true
			}
		}
	}
	for _, s := range all.Seeds {
		for i, r := range all.row(s.At.Y) {
			if int(r.from) <= s.At.X && s.At.X < int(r.to) {
				g.kept[g.root(all.first[s.At.Y]+int32(i))] = true
			}
		}
	}
	to, from := int32(0), int32(0)
	for y := range all.Height {
		for end := all.first[y+1]; from < end; from++ {
			if g.kept[g.root(from)] {
				all.runs[to] = all.runs[from]
				to++
			}
		}
		all.first[y+1] = to
	}
	all.runs = all.runs[:to]
}

// likes says which colours are like any of some seeds.
type likes struct {
	seeds []Seed
	space *colour.Space // of the picture and of the seeds' colours
	codes *fixed.Codes
	lab   [MostSeeds][3]int32 // their colours, as labOf has them
	most  [MostSeeds]int64    // squared distance
	bins  [256]bool           // of lightness: what lies in none of them is like none
}

// set takes other seeds, in a picture of a space, and reports whether they are others.
func (l *likes) set(space *colour.Space, seeds []Seed) bool {
	same := len(seeds) == len(l.seeds) && space == l.space && l.codes != nil
	for i := 0; same && i < len(seeds); i++ {
		same = seeds[i].Colour == l.seeds[i].Colour && seeds[i].Within == l.seeds[i].Within
	}
	if same {
		return false
	}
	l.seeds, l.space, l.codes = append(l.seeds[:0], seeds...), space, fixed.CodesOf(space)
	l.bins = [256]bool{}
	for i, s := range seeds {
		within := min(max(s.Within, 0), mostWithin)
		l.lab[i] = l.labOf(s.Colour)
		l.most[i] = int64(within * within * labUnit * labUnit)
		lightness := float64(l.lab[i][0]) / labUnit
		from, to := colour.BinOf(max(lightness-within, 0)), colour.BinOf(min(lightness+within, 100))
		for bin := max(from-1, 0); bin <= min(to+1, 255); bin++ { // one more, for rounding
			l.bins[bin] = true
		}
	}
	return true
}

// mostWithin is further than any two colours of a display lie apart, in L*a*b*.
const mostWithin = 1000.0

// labUnit is 1 in what labOf returns.
const labUnit = 1 << 8

// labOf returns a colour in L*a*b*, in 1/labUnit: whole numbers are the same everywhere. Colours
// of another space may lie beyond sRGB, where these have no place.
func (l *likes) labOf(c colour.RGB) [3]int32 {
	if l.space != nil {
		lab := l.space.LabOfCode(c)
		return [3]int32{int32(labUnit * lab.L), int32(labUnit * lab.A), int32(labUnit * lab.B)}
	}
	low := &l.codes.Light.Red
	r, g, b := uint32(low[c.R]), uint32(low[c.G]), uint32(low[c.B])
	var f [3]int64
	for i, w := range &fixed.LabWeights {
		f[i] = int64(fixed.LabRoots.Of(r*w[0] + g*w[1] + b*w[2]))
	}
	const shift = fixed.LabBits - 8
	return [3]int32{
		int32((116*f[1] - 16*fixed.LabUnit) >> shift),
		int32(500 * (f[0] - f[1]) >> shift),
		int32(200 * (f[1] - f[2]) >> shift),
	}
}

// like reports whether a colour, red in the lowest byte, is like any seed.
func (l *likes) like(w uint32) bool {
	c := colour.RGB{R: uint8(w), G: uint8(w >> 8), B: uint8(w >> 16)}
	lab := l.labOf(c)
	for i := range l.seeds {
		at := &l.lab[i]
		d := [3]int64{int64(lab[0] - at[0]), int64(lab[1] - at[1]), int64(lab[2] - at[2])}
		if d[0]*d[0]+d[1]*d[1]+d[2]*d[2] <= l.most[i] {
			return true
		}
	}
	return false
}

// likeCache remembers of colours whether they are like any seed: a picture has few at a time.
// An entry is a colour, with knownLike or knownUnlike above it; 0 is none.
type likeCache [1 << 12]uint32

const (
	knownLike   = 1 << 24
	knownUnlike = 2 << 24
	spread      = 0x9e3779b1 // 2³² by the golden ratio: neighbours among colours go far apart
)

func (c *likeCache) like(l *likes, w uint32) bool {
	if !l.bins[l.codes.Bins.Of(uint8(w), uint8(w>>8), uint8(w>>16))] {
		return false
	}
	at := &c[w*spread>>20]
	if *at&0xffffff != w || *at == 0 {
		*at = w | knownUnlike
		if l.like(w) {
			*at = w | knownLike
		}
	}
	return *at&knownLike != 0
}
