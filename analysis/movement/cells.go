package movement

import (
	"encoding/binary"
	"image"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/pool"
)

const (
	cellsAcross = 240 // at most so many cells along the longer side
	cellFine    = 640 // pixels of the longer side up to which cells are of the least size
	cellsLeast  = 8   // at least so many along the shorter side, for Finder to look at all
	coarseLeast = 10  // a coarser level has at least so many
	cellLevels  = 6   // of a picture; each is 1/√2 as wide as the one before
	cellRows    = 8   // at most so many rows of pixels, evenly chosen, make a cell
	cellUnit    = 4   // pixels: the side of a cell is a multiple of it
)

// cellPlane is a picture reduced to cells, row by row, each the mean lightness of a square
// of pixels in steps of Reading.Grey, blurred a little, so that a motion by less than a cell
// shows.
type cellPlane struct {
	across, down int
	side         float64 // of a cell, in cells of the finest level
	v            []float32
}

func (c *cellPlane) resize(across, down int, side float64) {
	c.across, c.down, c.side = across, down, side
	c.v = pool.Resized(c.v, across*down)
}

// row returns row y.
func (c *cellPlane) row(y int) []float32 { return c.v[y*c.across:][:c.across] }

// slope returns how much lightness rises from a cell inside to the next, across and down.
func (c *cellPlane) slope(i int) (x, y float32) {
	return (c.v[i+1] - c.v[i-1]) / 2, (c.v[i+c.across] - c.v[i-c.across]) / 2
}

// sampled is a plane that is looked at between its cells, cell (0, 0) having its centre at (0, 0).
type sampled struct {
	v          []float32
	across     int
	right, low float32
}

func (c *cellPlane) sampled() sampled {
	return sampled{c.v, c.across, float32(c.across - 1), float32(c.down - 1)}
}

// has reports whether a place is within the plane.
func (s *sampled) has(x, y float32) bool { return x >= 0 && y >= 0 && x < s.right && y < s.low }

// at returns lightness and slopes of a place within the plane.
func (s *sampled) at(x, y float32) (v, slopeX, slopeY float32) {
	ix, iy := int(x), int(y)
	a, b, c, d := s.square(iy*s.across + ix)
	return between4(a, b, c, d, x-float32(ix), y-float32(iy))
}

// square returns a cell, the next one, and those below.
func (s *sampled) square(i int) (a, b, c, d float32) {
	upper, lower := s.v[i:i+2:i+2], s.v[i+s.across:i+s.across+2:i+s.across+2]
	return upper[0], upper[1], lower[0], lower[1]
}

// between4 returns lightness and slopes between four cells.
func between4(a, b, c, d, x, y float32) (v, slopeX, slopeY float32) {
	top, foot, left, right := b-a, d-c, c-a, d-b
	down := left + x*(right-left)
	return a + x*top + y*down, top + y*(foot-top), down
}

// bounds are all cells of a plane, inner those that have neighbours on all sides.
func (c *cellPlane) bounds() image.Rectangle { return image.Rect(0, 0, c.across, c.down) }
func (c *cellPlane) inner() image.Rectangle  { return c.bounds().Inset(1) }

// halve sets c to means of 2 x 2 cells of a finer plane.
func (c *cellPlane) halve(finer *cellPlane) {
	for y := range c.down {
		upper, lower, dst := finer.row(2*y), finer.row(2*y+1), c.row(y)
		for x := range dst {
			dst[x] = (upper[2*x] + upper[2*x+1] + lower[2*x] + lower[2*x+1]) / 4
		}
	}
}

// shrink sets c to a finer plane reduced to 1/√2, between its cells.
func (c *cellPlane) shrink(finer *cellPlane) {
	for y := range c.down {
		at, dst := (float32(y)+0.5)*math.Sqrt2-0.5, c.row(y)
		iy := int(at)
		fy, upper, lower := at-float32(iy), finer.row(iy), finer.row(min(iy+1, finer.down-1))
		for x := range dst {
			at := (float32(x)+0.5)*math.Sqrt2 - 0.5
			ix := int(at)
			fx, next := at-float32(ix), min(ix+1, finer.across-1)
			a, b := upper[ix]+fx*(upper[next]-upper[ix]), lower[ix]+fx*(lower[next]-lower[ix])
			dst[x] = a + fy*(b-a)
		}
	}
}

// blurOf sets c to a plane of its size smoothed by 1 2 1 both ways; from may be c itself.
// scratch is at least as large.
func (c *cellPlane) blurOf(from *cellPlane, scratch []float32) {
	half := cellPlane{across: c.across, down: c.down, v: scratch[:len(c.v)]}
	for y := range c.down {
		src, dst := from.row(y), half.row(y)
		last := len(src) - 1
		dst = dst[:len(src)]
		dst[0], dst[last] = (3*src[0]+src[1])/4, (src[last-1]+3*src[last])/4
		a, b := src[0], src[1]
		for x := 1; x < last; x++ {
			next := src[x+1]
			dst[x] = (a + 2*b + next) / 4
			a, b = b, next
		}
	}
	for y := range c.down {
		dst := c.row(y)
		above, here, below := half.row(max(y-1, 0))[:len(dst)], half.row(y)[:len(dst)], half.row(min(y+1, c.down-1))[:len(dst)]
		for x := range dst {
			dst[x] = (above[x] + 2*here[x] + below[x]) / 4
		}
	}
}

// cells is a picture in cells: as they were read, and at levels from fine to coarse.
type cells struct {
	size    int // pixels: the side of a cell of the finest level
	levels  int // 0 for too small a picture
	read    cellPlane
	plane   [cellLevels]cellPlane
	ready   bool // the levels are made
	corners []corner
	found   bool // the corners are
	slopes  [cellLevels]slopes
	sums    []uint64 // of 8 pixels side by side: four sums of two
}

func (p *cells) resize(width, height int) {
	const whole = cellUnit * cellsAcross
	p.size, p.levels, p.ready, p.found = max((max(width, height)+whole-1)/whole, 1)*cellUnit, 0, false, false
	if p.size == cellUnit && max(width, height) > cellFine {
		p.size *= 2
	}
	across, down := width/p.size, height/p.size
	if across*p.size%8 != 0 { // whole words of 8 pixels
		across--
	}
	if min(across, down) < cellsLeast {
		return
	}
	p.read.resize(across, down, 1)
	p.plane[0].resize(across, down, 1)
	for p.levels = 1; p.levels < cellLevels; p.levels++ {
		from, side := &p.plane[max(p.levels-2, 0)], math.Pow(2, float64(p.levels)/2)
		across, down := from.across/2, from.down/2
		if p.levels == 1 {
			across, down = int(float64(from.across)/math.Sqrt2), int(float64(from.down)/math.Sqrt2)
		}
		if min(across, down) < coarseLeast {
			break
		}
		p.plane[p.levels].resize(across, down, side)
	}
	p.sums = pool.Resized(p.sums, width/8)
}

// middle returns where the middle of the cells lies, in pixels. Where not every row is read
// it lies a little higher.
func (p *cells) middle() (x, y float64) {
	step := (p.size + cellRows - 1) / cellRows
	rows := (p.size + step - 1) / step &^ 1
	high := float64((rows-1)*step+1-p.size) / 2
	return float64(p.read.across*p.size) / 2, float64(p.read.down*p.size)/2 + high
}

// take reads the changed part of a picture of the size that was set, in pixels. What is left over at
// the right and at the foot, less than a cell or two, isn't looked at.
func (p *cells) take(r *analysis.Reading, changed image.Rectangle) {
	p.ready, p.found = false, false
	step := (p.size + cellRows - 1) / cellRows
	box := p.touched(changed)
	left, right := box.Min.X*p.size, box.Max.X*p.size
	sums := p.sums[:(right-left)/8]
	for cy := box.Min.Y; cy < box.Max.Y; cy++ {
		clear(sums)
		first, rows := cy*p.size, (p.size+step-1)/step&^1
		n := 0
		for ; n+4 <= rows; n += 4 {
			row := func(i int) []uint8 { return r.GreyRow(first + (n+i)*step)[left:right] }
			addFour(sums, row(0), row(1), row(2), row(3))
		}
		if n < rows { // an even number
			addWords(sums, r.GreyRow(first + n*step)[left:right], r.GreyRow(first + (n+1)*step)[left:right])
		}
		means(p.read.row(cy)[box.Min.X:box.Max.X], sums, p.size, rows)
	}
}

// touched returns the cells that a part of the picture touches, beginning and ending with whole words of
// 8 pixels.
func (p *cells) touched(part image.Rectangle) image.Rectangle {
	part = part.Intersect(image.Rect(0, 0, p.read.across*p.size, p.read.down*p.size))
	if part.Empty() {
		return image.Rectangle{}
	}
	box := image.Rect(part.Min.X/p.size, part.Min.Y/p.size, (part.Max.X-1)/p.size+1, (part.Max.Y-1)/p.size+1)
	if p.size%8 != 0 {
		box.Min.X, box.Max.X = box.Min.X&^1, (box.Max.X+1)&^1
	}
	return box
}

// prepare makes the levels, if they aren't made; scratch is as large as the finest.
func (p *cells) prepare(scratch []float32) {
	if p.ready {
		return
	}
	p.ready = true
	for level := range p.slopes {
		p.slopes[level].most = 0
	}
	p.plane[0].blurOf(&p.read, scratch)
	p.plane[0].blurOf(&p.plane[0], scratch)
	for level := 1; level < p.levels; level++ {
		c := &p.plane[level]
		if level == 1 {
			c.shrink(&p.plane[0])
		} else {
			c.halve(&p.plane[level-2])
		}
		c.blurOf(c, scratch)
	}
}

// evenBytes are every second byte of a word, with room to count in.
const evenBytes = 0x00ff00ff_00ff00ff

// addWords adds two rows of pixels, 8 at a time, to sums.
func addWords(sums []uint64, one, two []uint8) {
	one, two = one[:8*len(sums)], two[:8*len(sums)]
	for i := range sums {
		v, w := binary.LittleEndian.Uint64(one[8*i:]), binary.LittleEndian.Uint64(two[8*i:])
		sums[i] += v&evenBytes + v>>8&evenBytes + w&evenBytes + w>>8&evenBytes // 8 rows of twice 255 fit in 16 bits
	}
}

// addFour is addWords of four rows.
func addFour(sums []uint64, one, two, three, four []uint8) {
	one, two, three, four = one[:8*len(sums)], two[:8*len(sums)], three[:8*len(sums)], four[:8*len(sums)]
	for i := range sums {
		v, w := binary.LittleEndian.Uint64(one[8*i:]), binary.LittleEndian.Uint64(two[8*i:])
		x, y := binary.LittleEndian.Uint64(three[8*i:]), binary.LittleEndian.Uint64(four[8*i:])
		sums[i] += v&evenBytes + w&evenBytes + x&evenBytes + y&evenBytes +
			v>>8&evenBytes + w>>8&evenBytes + x>>8&evenBytes + y>>8&evenBytes
	}
}

// means sets a row of cells, of size pixels, to the means of so many rows.
func means(dst []float32, sums []uint64, size, rows int) {
	scale := 1 / float32(size*rows)
	if size == 8 { // one word
		for x, w := range sums[:len(dst)] {
			w = w&0xffff_0000ffff + w>>16&0xffff_0000ffff
			dst[x] = float32(w&0xffffffff+w>>32) * scale
		}
		return
	}
	unit := 0
	for x := range dst {
		var sum uint64
		for range size / cellUnit {
			half := sums[unit/2] >> (32 * (unit & 1)) // of a word: 4 pixels
			sum += half&0xffff + half>>16&0xffff
			unit++
		}
		dst[x] = float32(sum) * scale
	}
}
