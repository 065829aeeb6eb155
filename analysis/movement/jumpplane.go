package movement

import (
	"encoding/binary"
	"image"
	"slices"

	"app.tonedesk/analysis"
)

const (
	cellsAcross = 160 // at most so many cells along the longer side
	cellsLeast  = 8   // at least so many along the shorter side, for Jump to look at all
	coarseLeast = 10  // a coarser level has at least so many
	cellLevels  = 3   // of a pyramid; the coarsest is a quarter as wide as the finest
	cellRows    = 8   // at most so many rows of pixels, evenly chosen, make a cell
	cellUnit    = 4   // pixels: the side of a cell is a multiple of it
)

// cellPlane is a picture reduced to cells, row by row, each the mean lightness of a square
// of pixels in steps of Reading.Grey, blurred a little, so that a motion by less than a cell
// shows.
type cellPlane struct {
	across, down int
	v            []float32
}

func newCellPlane(across, down int) cellPlane {
	return cellPlane{across, down, make([]float32, across*down)}
}

// row returns row y.
func (c *cellPlane) row(y int) []float32 { return c.v[y*c.across:][:c.across] }

// slope returns how much lightness rises from a cell inside to the next, across and down.
func (c *cellPlane) slope(i int) (x, y float32) {
	return (c.v[i+1] - c.v[i-1]) / 2, (c.v[i+c.across] - c.v[i-c.across]) / 2
}

// halve sets c to means of 2 x 2 cells of a finer plane.
func (c *cellPlane) halve(finer *cellPlane) {
	for y := range c.down {
		upper, lower, dst := finer.row(2*y), finer.row(2*y+1), c.row(y)
		for x := range dst {
			dst[x] = (upper[2*x] + upper[2*x+1] + lower[2*x] + lower[2*x+1]) / 4
		}
	}
}

// mirrorOf sets c to from, mirrored left to right or top to bottom.
func (c *cellPlane) mirrorOf(from *cellPlane, across, down bool) {
	for y := range c.down {
		src, dst := from.row(y), c.row(y)
		if down {
			src = from.row(c.down - 1 - y)
		}
		copy(dst, src)
		if across {
			slices.Reverse(dst)
		}
	}
}

// blur smooths a plane by 1 2 1 both ways; scratch is at least as large.
func (c *cellPlane) blur(scratch []float32) {
	half := cellPlane{c.across, c.down, scratch[:len(c.v)]}
	for y := range c.down {
		src, dst := c.row(y), half.row(y)
		last := len(src) - 1
		dst[0], dst[last] = (3*src[0]+src[1])/4, (src[last-1]+3*src[last])/4
		for x := 1; x < last; x++ {
			dst[x] = (src[x-1] + 2*src[x] + src[x+1]) / 4
		}
	}
	for y := range c.down {
		above, here, below := half.row(max(y-1, 0)), half.row(y), half.row(min(y+1, c.down-1))
		for x, dst := 0, c.row(y); x < len(dst); x++ {
			dst[x] = (above[x] + 2*here[x] + below[x]) / 4
		}
	}
}

// cellPyramid is a picture in cells, finest first. levels is 0 for too small a picture.
type cellPyramid struct {
	size   int // pixels: the side of a cell of the finest level
	levels int
	plane  [cellLevels]cellPlane
	sums   []uint64 // of 8 pixels side by side: four sums of two
}

func (p *cellPyramid) resize(width, height int) {
	const whole = cellUnit * cellsAcross
	p.size, p.levels = max((max(width, height)+whole-1)/whole, 1)*cellUnit, 0
	across, down := width/p.size, height/p.size
	if across*p.size%8 != 0 { // whole words of 8 pixels
		across--
	}
	if min(across, down) < cellsLeast {
		return
	}
	for p.levels < cellLevels && (p.levels == 0 || min(across, down) >= coarseLeast) {
		p.plane[p.levels] = newCellPlane(across, down)
		across, down = across/2, down/2
		p.levels++
	}
	p.sums = make([]uint64, width/8)
}

// coarse returns the coarsest level.
func (p *cellPyramid) coarse() *cellPlane { return &p.plane[p.levels-1] }

// read reduces a reading; scratch is as large as the finest level. What is left over at the
// right and at the foot, less than a cell or two, isn't looked at.
func (p *cellPyramid) read(r *analysis.Reading, scratch []float32) {
	if p.levels == 0 {
		return
	}
	finest := &p.plane[0]
	step := (p.size + cellRows - 1) / cellRows
	sums := p.sums[:finest.across*p.size/8]
	for cy := range finest.down {
		clear(sums)
		first, rows := cy*p.size, (p.size+step-1)/step
		for n := range rows {
			addWords(sums, r.GreyRow(first+n*step))
		}
		means(finest.row(cy), sums, p.size, rows)
	}
	finest.blur(scratch)
	finest.blur(scratch)
	for level := 1; level < p.levels; level++ {
		p.plane[level].halve(&p.plane[level-1])
	}
}

// evenBytes are every second byte of a word, with room to count in.
const evenBytes = 0x00ff00ff_00ff00ff

// addWords adds a row of pixels, 8 at a time, to sums.
func addWords(sums []uint64, row []uint8) {
	for i := range sums {
		w := binary.LittleEndian.Uint64(row[8*i:])
		sums[i] += w&evenBytes + w>>8&evenBytes // 8 rows of twice 255 fit in 16 bits
	}
}

// means sets a row of cells, of size pixels, to the means of so many rows.
func means(dst []float32, sums []uint64, size, rows int) {
	scale := 1 / float32(size*rows)
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

// bounds are all cells of a plane, inner those that have neighbours on all sides.
func (c *cellPlane) bounds() image.Rectangle { return image.Rect(0, 0, c.across, c.down) }
func (c *cellPlane) inner() image.Rectangle  { return c.bounds().Inset(1) }

// coarser returns the part of a plane that many levels coarser.
func coarser(box image.Rectangle, levels int) image.Rectangle {
	up := 1<<levels - 1
	return image.Rect(box.Min.X>>levels, box.Min.Y>>levels, (box.Max.X+up)>>levels, (box.Max.Y+up)>>levels)
}
