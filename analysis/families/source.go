package families

import (
	"encoding/binary"
	"image"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
)

// familyCells is how many cells a picture is reduced to: a few more than 400 by 225, so that
// the smallest side that is looked for is some fifteen cells wide.
const familyCells = 96_000

// familySource is what is kept of a frame: the mean of each cell in linear light, its darkest
// pixel, and whether it is left out.
type familySource struct {
	width, height int // of the frame, pixels
	across, down  int // cells
	linear        []uint16
	left          []uint8
	dark          []uint32        // the darkest pixel as red, green, blue from the lowest byte on
	frame         image.Rectangle // cells; what lies beyond is no part of the picture
	counted       int             // cells
}

// Take reduces a frame to what Find works on. The frame isn't kept.
func (f *Finder) Take(p analysis.Pixels, out *analysis.Mask) {
	s := &f.source
	if p.Check() != nil {
		p = analysis.Pixels{}
	}
	s.width, s.height = p.Width, p.Height
	s.across, s.down = cellsFor(p.Width, p.Height)
	reduced := f.reducer.Reduce(p, s.across, s.down, out)
	s.linear, s.left = reduced.Linear, reduced.Left
	s.counted = 0
	for _, left := range s.left {
		s.counted += int(1 - left)
	}
	s.dark = pool.Resized(s.dark, s.across*s.down)
	f.rows(s.down, func(y int) { s.darkest(p, y) })
	s.frame = frameWithin(s.across, s.down, s.left)
}

// cellsFor returns into how many cells a picture is reduced: about familyCells, as square
// as may be, or a cell a pixel for small pictures.
func cellsFor(width, height int) (across, down int) {
	if width*height <= familyCells {
		return width, height
	}
	scale := math.Sqrt(familyCells / (float64(width) * float64(height)))
	return max(1, int(math.Round(float64(width)*scale))), max(1, int(math.Round(float64(height)*scale)))
}

// darkest finds the darkest pixel of each cell of row y; a pixel belongs to the cell its
// centre lies in.
func (s *familySource) darkest(p analysis.Pixels, y int) {
	red, blue := 0, 16
	opaque := uint32(0)
	if p.Layout == analysis.BGRX {
		red, blue, opaque = 16, 0, analysis.OpaqueWord
	}
	share := &fixed.Bins.Share
	top, foot := y*s.height/s.down, (y+1)*s.height/s.down
	for x := range s.across {
		from, to := x*s.width/s.across, (x+1)*s.width/s.across
		least, word, last := uint32(math.MaxUint32), uint32(0), uint32(0) // transparent
		for v := top; v < foot; v++ {
			row := p.Row(v)[analysis.PixelBytes*from : analysis.PixelBytes*to]
			for ; len(row) >= analysis.PixelBytes; row = row[analysis.PixelBytes:] {
				w := binary.LittleEndian.Uint32(row) | opaque
				if w == last || w>>24 == 0 {
					continue
				}
				last = w
				if light := share[0][uint8(w>>red)] + share[1][uint8(w>>8)] + share[2][uint8(w>>blue)]; light < least {
					least, word = light, w
				}
			}
		}
		s.dark[y*s.across+x] = word>>red&255 | word&0xff00 | word>>blue&255<<16
	}
}

// frameMost is the part of a frame that is left out, at most, for a background to run round
// it.
const frameMost = 0.2

// frameWithin returns where the picture's frame lies: around what is counted, without the
// rows and columns that are left out as a whole, such as the workspace around a canvas. Where
// that leaves forms on nothing, the whole picture is the frame.
func frameWithin(across, down int, left []uint8) image.Rectangle {
	whole := image.Rect(0, 0, across, down)
	r := whole
	for outAlong(left, across, r, 0, r.Min.Y) == r.Dx() && !r.Empty() {
		r.Min.Y++
	}
	for outAlong(left, across, r, 0, r.Max.Y-1) == r.Dx() && !r.Empty() {
		r.Max.Y--
	}
	for outAlong(left, across, r, 1, r.Min.X) == r.Dy() && !r.Empty() {
		r.Min.X++
	}
	for outAlong(left, across, r, 1, r.Max.X-1) == r.Dy() && !r.Empty() {
		r.Max.X--
	}
	if r.Empty() {
		return whole
	}
	out := outAlong(left, across, r, 0, r.Min.Y) + outAlong(left, across, r, 0, r.Max.Y-1) +
		outAlong(left, across, r, 1, r.Min.X) + outAlong(left, across, r, 1, r.Max.X-1)
	if float64(out) > frameMost*float64(2*(r.Dx()+r.Dy())) {
		return whole
	}
	return r
}

// outAlong counts what is left out of row at of r, or of its column at if way is 1.
func outAlong(left []uint8, across int, r image.Rectangle, way, at int) (n int) {
	if r.Empty() {
		return 0
	}
	if way == 0 {
		for _, out := range left[at*across+r.Min.X : at*across+r.Max.X] {
			n += int(out)
		}
		return n
	}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		n += int(left[y*across+at])
	}
	return n
}
