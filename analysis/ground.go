package analysis

import (
	"encoding/binary"
	"image"

	"app.tonedesk/analysis/internal/pool"
)

// Ground says what became of the ground in the groups of a Reading: the blank, even background
// that runs round the picture's frame, of one colour, as far as it hangs together with it.
type Ground uint8

const (
	GroundCounted Ground = iota // it was not asked for
	GroundLeftOut               // the groups are of all that is counted but the ground
	NoGround                    // none runs round the frame: the groups are of all that is counted
	OnlyGround                  // there is hardly anything else: the same
)

// What makes a ground (our choice, but groundReach).
const (
	groundPart  = 0.5  // part of the frame that has its colour
	groundHeld  = 0.4  // and still has it, where a steady Reader left a ground out before
	groundReach = 15   // bins of lightness that a pixel of it may be away: 6 L*, as of the areas of a background (families)
	groundTint  = 16   // the same of red less green and of blue less green, in codes
	groundRest  = 0.01 // part of what is counted that is left at least without it
)

// How a ground is looked for.
const (
	rimSamples = 256 // pixels of the frame that are looked at
	rimDepth   = 8   // pixels from the frame's edge, where the border of a window may lie
	cellSide   = 4   // pixels; a cell is of the ground if all of it is like it: no line is crossed
	cellBytes  = 0x0101_0101_0101_0101
	cellHigh   = 0x80 * cellBytes
)

// The cells.
const (
	cellClosed = iota // something else is in it
	cellOpen          // like the ground
	cellGround        // and hangs together with the frame
)

// hue is what of a pixel is compared with the ground's.
type hue struct{ bin, redness, blueness int }

func (h hue) like(o hue) bool {
	return abs(h.bin-o.bin) <= groundReach && h.tinted(o)
}

func (h hue) tinted(o hue) bool {
	return abs(h.redness-o.redness) <= groundTint && abs(h.blueness-o.blueness) <= groundTint
}

func abs(v int) int { return max(v, -v) }

// hueOf returns a pixel's redness and blueness, without its lightness.
func hueOf(p *Pixels, x, y int) hue {
	c := p.Pixel(x, y)
	return hue{redness: int(c.R) - int(c.G), blueness: int(c.B) - int(c.G)}
}

// groundFinder finds the ground of one picture after another in its own memory.
type groundFinder struct {
	wanted  bool // one is asked for
	is      bool // the frame has one: it is being found
	of      hue
	held    hue             // of the picture before
	lo, hi  int             // bins that are like it
	frame   image.Rectangle // of what is left in, pixels
	wide    int             // cells of a row
	across  int             // from a row to the next: closed ones follow, so that eight make a word
	cells   []uint8
	stack   []int32     // of cells to go on from
	runs    [][]cellRun // runs of a row's marks, one a worker
	tallies []lanes     // what a piece holds, one a worker

	changed image.Rectangle // of the frame, since the one before
	marks   []uint8         // cells with pixels of the ground, as they were counted
	counted []groundCounts  // what each piece of rows holds
}

// groundCounts are pixels of the ground by bin, from lo on.
type groundCounts [2*groundReach + 1]uint32

// cellRun is cells of a row that are alike, by the pixels where they begin and end.
type cellRun struct {
	from, to int
	inside   bool // else beside the ground
}

// lanes count pixels by bin, neighbours apart, so that they don't wait for each other.
type lanes [4][256]uint32

// look looks whether a ground runs round the frame of what is left in of a picture; held is the one
// that did before, or nil.
func (g *groundFinder) look(p *Pixels, left *Left, out *Mask, held *hue) {
	g.is = false
	if !g.wanted {
		return
	}
	if g.frame = left.frame(p.Width, p.Height); g.frame.Empty() {
		return
	}
	var all [rimSamples]hue
	found := all[:0]
	for i := range rimSamples {
		at := rimPlace(g.frame, i)
		_, _, _, opaque := p.At(at.X, at.Y)
		_, counted := left.NextSpan(at.Y, at.X, p.Width)
		h := hueOf(p, at.X, at.Y)
		h.bin = int(p.Bin(at.X, at.Y))
		if opaque && counted && !out.LeavesOut(uint8(h.bin)) {
			found = append(found, h)
		}
	}
	like, part := 0, groundPart
	if g.of, like = commonest(found); held != nil && g.of.like(*held) {
		part = groundHeld
	}
	g.is = 2*len(found) >= rimSamples && float64(like) >= part*float64(len(found))
	g.lo, g.hi = max(g.of.bin-groundReach, 0), min(g.of.bin+groundReach, 255)
	if g.is {
		g.wide = (p.Width + cellSide - 1) / cellSide
		g.across = (g.wide + 7) &^ 7
		g.cells = pool.Resized(g.cells, g.across*((p.Height+cellSide-1)/cellSide))
		g.marks = pool.Resized(g.marks, len(g.cells))
		g.counted = pool.Resized(g.counted, (p.Height+rowsPerPiece-1)/rowsPerPiece)
	}
}

// rimPlace returns one of rimSamples places round a frame, near its edge.
func rimPlace(frame image.Rectangle, i int) image.Point {
	w, h := frame.Dx(), frame.Dy()
	deep := min(5*i%rimDepth, (min(w, h)-1)/2)
	at := i * 2 * (w + h) / rimSamples
	var p image.Point
	switch {
	case at < w:
		p = image.Pt(at, deep)
	case at < w+h:
		p = image.Pt(w-1-deep, at-w)
	case at < 2*w+h:
		p = image.Pt(at-w-h, h-1-deep)
	default:
		p = image.Pt(deep, at-2*w-h)
	}
	return p.Add(frame.Min)
}

// commonest returns the mean of what is like the colour that most are like, and how many are.
func commonest(all []hue) (mean hue, like int) {
	const step = 4 // of those that are tried
	best := hue{}
	for i := 0; i < len(all); i += step {
		n := 0
		for _, h := range all {
			if h.like(all[i]) {
				n++
			}
		}
		if n > like {
			best, like = all[i], n
		}
	}
	if like == 0 {
		return best, 0
	}
	for _, h := range all {
		if h.like(best) {
			mean.bin, mean.redness, mean.blueness = mean.bin+h.bin, mean.redness+h.redness, mean.blueness+h.blueness
		}
	}
	return hue{(mean.bin + like/2) / like, mean.redness / like, mean.blueness / like}, like
}

// row looks at row y, of which bins is the lightness, from one column to another: multiples of two
// cells, or the row's ends. The first row of a cell comes first.
func (g *groundFinder) row(p *Pixels, y int, bins []uint8, from, to int) {
	cells := g.cells[y/cellSide*g.across:][:g.across]
	if y%cellSide == 0 {
		g.tint(p, y, cells, from, to)
	}
	bins, cells = bins[from:to], cells[from/cellSide:]
	// Eight pixels at a time: how far each byte is above lo, wrapped around, must not be above span.
	lo := uint64(g.lo) * cellBytes
	room := uint64(127-(g.hi-g.lo)) * cellBytes
	whole := len(bins) / (2 * cellSide)
	pairs, rest := cells[:2*whole], cells[2*whole:]
	for i := 0; i+1 < len(pairs); i += 2 {
		w := binary.LittleEndian.Uint64(bins)
		bins = bins[2*cellSide:]
		above := ((w | cellHigh) - lo&^cellHigh) ^ (w^^lo)&cellHigh
		unlike := (above&^cellHigh + room | above) & cellHigh
		if unlike == 0 {
			continue
		}
		if uint32(unlike) != 0 {
			pairs[i] = cellClosed
		}
		if unlike>>32 != 0 {
			pairs[i+1] = cellClosed
		}
	}
	for i, bin := range bins {
		if int(bin) < g.lo || int(bin) > g.hi {
			rest[i/cellSide] = cellClosed
		}
	}
}

// tint opens the cells from one column to another of which the first pixel has the ground's hue, and
// closes the others.
func (g *groundFinder) tint(p *Pixels, y int, cells []uint8, from, to int) {
	row := p.Row(y)[from*PixelBytes:]
	if to == p.Width {
		clear(cells[from/cellSide:])
	} else {
		clear(cells[from/cellSide : to/cellSide])
	}
	cells = cells[from/cellSide : (to+cellSide-1)/cellSide]
	first, third := g.of.redness-groundTint, g.of.blueness-groundTint
	if p.Layout == BGRX {
		first, third = third, first
	}
	for i := range cells {
		w := binary.LittleEndian.Uint32(row[i*cellSide*PixelBytes:])
		green := int(w >> 8 & 255)
		if uint(int(w&255)-green-first) <= 2*groundTint && uint(int(w>>16&255)-green-third) <= 2*groundTint {
			cells[i] = cellOpen
		}
	}
}

// reopen forgets which open cells hang together with the frame.
func (g *groundFinder) reopen() {
	for at := 0; at+8 <= len(g.cells); at += 8 {
		w := binary.LittleEndian.Uint64(g.cells[at:])
		binary.LittleEndian.PutUint64(g.cells[at:], w&(cellOpen*cellBytes)|w>>1&(cellOpen*cellBytes))
	}
}

// spread finds the cells that hang together with the frame.
func (g *groundFinder) spread(p *Pixels) {
	const rim = rimDepth / cellSide
	x0, y0 := (g.frame.Min.X+cellSide-1)/cellSide, (g.frame.Min.Y+cellSide-1)/cellSide
	x1, y1 := g.frame.Max.X/cellSide, g.frame.Max.Y/cellSide
	if g.frame.Max.X == p.Width { // the last cells may be smaller
		x1 = g.wide
	}
	if g.frame.Max.Y == p.Height {
		y1 = len(g.cells) / g.across
	}
	g.stack = g.stack[:0]
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			if y >= y0+rim && y < y1-rim && x == x0+rim {
				x = max(x, x1-rim)
			}
			if x < x1 && g.cells[y*g.across+x] == cellOpen {
				g.stack = append(g.stack, int32(y*g.across+x))
				g.flood(x0, y0, x1, y1)
			}
		}
	}
}

// flood goes on from the cells of the stack, a run of a row at a time.
func (g *groundFinder) flood(x0, y0, x1, y1 int) {
	for len(g.stack) > 0 {
		at := int(g.stack[len(g.stack)-1])
		g.stack = g.stack[:len(g.stack)-1]
		y := at / g.across
		row := g.cells[y*g.across:][:g.across]
		from := at - y*g.across
		if row[from] != cellOpen {
			continue
		}
		to := from
		for to < x1 && row[to] == cellOpen {
			row[to] = cellGround
			to++
		}
		for from > x0 && row[from-1] == cellOpen {
			from--
			row[from] = cellGround
		}
		if y > y0 {
			g.push(y-1, from, to)
		}
		if y+1 < y1 {
			g.push(y+1, from, to)
		}
	}
}

// push puts the beginnings of the open runs of a row on the stack.
func (g *groundFinder) push(y, from, to int) {
	row := g.cells[y*g.across:][:to]
	open := false
	for x := from; x < to; x++ {
		if row[x] != cellOpen {
			open = false
		} else if !open {
			open = true
			g.stack = append(g.stack, int32(y*g.across+x))
		}
	}
}

// leaveOutGround takes the ground out of what the groups are of, if that is asked for. changed is
// what was read again.
func (r *Reader) leaveOutGround(p Pixels, o Options, changed image.Rectangle) {
	g, now := &r.ground, &r.reading
	now.Ground, now.ground, now.groundCount = GroundCounted, [256]int{}, 0
	if !o.WithoutGround {
		r.held.ground = nil
		return
	}
	if r.held.ground = nil; r.Steady && g.is {
		g.held = g.of
		r.held.ground = &g.held
	}
	if now.Ground = NoGround; !g.is {
		return
	}
	g.spread(&p)
	g.changed = changed
	r.pixels = p
	r.workers.DoOther(r.countGround, len(g.counted))
	r.pixels = Pixels{}
	for bin := g.lo; bin <= g.hi; bin++ {
		if o.Mask.LeavesOut(uint8(bin)) {
			continue
		}
		for i := range g.counted {
			now.ground[bin] += int(g.counted[i][bin-g.lo])
		}
		now.groundCount += now.ground[bin]
	}
	switch rest := now.Counted - now.groundCount; {
	case now.groundCount == 0:
	case float64(rest) < groundRest*float64(now.Counted):
		now.Ground, now.ground, now.groundCount = OnlyGround, [256]int{}, 0
	default:
		now.Ground = GroundLeftOut
	}
}

// groundRows counts the pixels of the ground in a piece: those of its cells, and what is like it in
// the cells beside, where a form's edge runs. What has not changed since it was counted stays.
func (r *Reader) groundRows(worker, piece int) {
	g, p := &r.ground, &r.pixels
	first := piece * rowsPerPiece
	last := min(first+rowsPerPiece, p.Height)
	holds := first >= g.changed.Max.Y || last <= g.changed.Min.Y
	for row := first / cellSide; row*cellSide < last; row++ {
		holds = g.besides(g.marks[row*g.across:][:g.across], row) && holds
	}
	if holds {
		return
	}
	r.countGroundRows(worker, first, last)
	n := &g.tallies[worker]
	for i := range min(g.hi-g.lo+1, len(g.counted[piece])) {
		bin := g.lo + i
		g.counted[piece][i] = n[0][bin] + n[1][bin] + n[2][bin] + n[3][bin]
	}
}

// countGroundRows counts them in some rows.
func (r *Reader) countGroundRows(worker, first, last int) {
	g, p := &r.ground, &r.pixels
	clear(g.tallies[worker : worker+1])
	for top := first; top < last; top += cellSide {
		runs := g.runsOf(worker, top/cellSide, p.Width)
		for y := top; len(runs) > 0 && y < min(top+cellSide, p.Height); y++ {
			bins := r.binsOf(worker, y)
			for _, run := range runs {
				for x := run.from; x < run.to; {
					end, counted := r.left.NextSpan(y, x, p.Width)
					end = min(end, run.to)
					switch n := &g.tallies[worker]; {
					case !counted:
					case run.inside && p.Layout == BGRX:
						n.add(bins[x:end])
					default:
						r.addEach(n, y, x, bins[x:end], run.inside)
					}
					x = end
				}
			}
		}
	}
}

// runsOf returns the runs of cells of a row that are of the ground or beside one.
func (g *groundFinder) runsOf(worker, row, width int) []cellRun {
	near, runs := g.marks[row*g.across:][:g.across], g.runs[worker][:0]
	for x := 0; x < g.wide; {
		from, state := x, near[x]
		for x < g.wide && near[x] == state {
			x++
		}
		if state != 0 {
			runs = append(runs, cellRun{from * cellSide, min(x*cellSide, width), state == 2})
		}
	}
	g.runs[worker] = runs
	return runs
}

// besides marks the cells of a row that are of the ground by 2, and those beside one by 1: eight at
// a time. It reports whether they were so marked.
func (g *groundFinder) besides(near []uint8, row int) (same bool) {
	same = true
	const ground = cellGround * cellBytes
	word := func(y, at int) uint64 { // 1 for each cell of the ground
		if y < 0 || at < 0 || at >= g.across || y*g.across >= len(g.cells) {
			return 0
		}
		return binary.LittleEndian.Uint64(g.cells[y*g.across+at:]) & ground >> 1
	}
	three := func(at int) uint64 { return word(row-1, at) | word(row, at) | word(row+1, at) }
	var before uint64
	now := three(0)
	for at := 0; at < g.across; at += 8 {
		after := three(at + 8)
		beside := now | now<<8 | now>>8 | before>>56 | after<<56
		marks := beside + word(row, at)
		same = same && marks == binary.LittleEndian.Uint64(near[at:])
		binary.LittleEndian.PutUint64(near[at:], marks)
		before, now = now, after
	}
	return same
}

// binsOf returns the lightness of a row.
func (r *Reader) binsOf(worker, y int) []uint8 {
	if r.grey != nil {
		return r.reading.GreyRow(y)
	}
	r.binPart(worker, false, r.rows[worker], 0, y)
	return r.rows[worker]
}

// addEach counts pixels of row y, from column x on, which have those bins: transparent ones are not
// counted, and outside the ground's cells only those with its hue.
func (r *Reader) addEach(n *lanes, y, x int, bins []uint8, inside bool) {
	for i, bin := range bins {
		_, _, _, counted := r.pixels.At(x+i, y)
		if counted && (inside || hueOf(&r.pixels, x+i, y).tinted(r.ground.of)) {
			n[i&3][bin]++
		}
	}
}

// add counts pixels by their bins. Those that are not like the ground count nothing in the end.
func (n *lanes) add(bins []uint8) {
	for ; len(bins) >= 8; bins = bins[8:] {
		w := binary.LittleEndian.Uint64(bins)
		if first := w & 255; w == first*cellBytes { // flat, as most grounds are
			n[0][first] += 8
			continue
		}
		n[0][w&255]++
		n[1][w>>8&255]++
		n[2][w>>16&255]++
		n[3][w>>24&255]++
		n[0][w>>32&255]++
		n[1][w>>40&255]++
		n[2][w>>48&255]++
		n[3][w>>56]++
	}
	for _, bin := range bins {
		n[0][bin]++
	}
}

// GroundShare returns which share of the counted pixels is left out of the groups as the ground,
// 0 to 1; 0 where none is.
func (r *Reading) GroundShare() float64 {
	return float64(r.groundCount) / float64(max(r.Counted, 1))
}

// lessGround returns a histogram of the picture, counted at any size, without the ground that is
// left out of the groups: an even ground has the same share at all sizes.
func (r *Reading) lessGround(histogram *[256]int) [256]int {
	rest := *histogram
	if r.groundCount == 0 {
		return rest
	}
	size := countOf(histogram[:])
	for bin, n := range r.ground {
		rest[bin] = max(0, rest[bin]-n*size/r.Counted)
	}
	return rest
}
