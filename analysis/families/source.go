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
func (f *Finder) Take(p analysis.Pixels, mask *analysis.Mask) {
	s := &f.source
	if p.Check() != nil {
		p = analysis.Pixels{}
	}
	s.width, s.height = p.Width, p.Height
	s.across, s.down = cellsFor(p.Width, p.Height)
	reduced := f.reducer.Reduce(p, s.across, s.down, mask)
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
	count := func(part image.Rectangle) (cells int) {
		for y := part.Min.Y; y < part.Max.Y; y++ {
			for _, l := range left[y*across+part.Min.X : y*across+part.Max.X] {
				cells += int(l)
			}
		}
		return cells
	}
	r := whole
	for side, inward := range [4]image.Rectangle{{Min: image.Pt(0, 1)}, {Max: image.Pt(0, -1)}, {Min: image.Pt(1, 0)}, {Max: image.Pt(-1, 0)}} {
		for !r.Empty() && count(sidesOf(r)[side]) == sidesOf(r)[side].Dx()*sidesOf(r)[side].Dy() {
			r = image.Rectangle{Min: r.Min.Add(inward.Min), Max: r.Max.Add(inward.Max)}
		}
	}
	if r.Empty() {
		return whole
	}
	cells := 0
	for _, side := range sidesOf(r) {
		cells += count(side)
	}
	if float64(cells) > frameMost*float64(2*(r.Dx()+r.Dy())) {
		return whole
	}
	return r
}

// sidesOf returns the first row of a rectangle, its last one, its first column and its last.
func sidesOf(r image.Rectangle) [4]image.Rectangle {
	return [4]image.Rectangle{
		image.Rect(r.Min.X, r.Min.Y, r.Max.X, r.Min.Y+1), image.Rect(r.Min.X, r.Max.Y-1, r.Max.X, r.Max.Y),
		image.Rect(r.Min.X, r.Min.Y, r.Min.X+1, r.Max.Y), image.Rect(r.Max.X-1, r.Min.Y, r.Max.X, r.Max.Y),
	}
}

// cellLab is 1 in L*a*b* in familyPlanes: whole numbers add up the same in any order.
const (
	cellLabBits = 6
	cellLab     = 1 << cellLabBits
)

// familyPlanes are a picture's cells in L*a*b*, in 1/cellLab.
type familyPlanes struct {
	raw, flat [3][]int32 // as they are; without grain and with sharp edges
	thin      []uint8    // why a cell counts in no side, 0 for one that may
	depth     []int32    // see measureDepth
	noise     float64    // standard deviation of L* from cell to neighbour

	low, high []int32 // lightness without what is thin and light, and thin and dark
	row       []int32 // of square, between its passes
	even      evenSquares
}

// Why a cell counts in no side; they may come together.
const (
	thinCell   = 1 << iota // too narrow for a side: lines, glints
	bridgeCell             // of an accent that was an area of its own
	alienCell              // of a detail in a side
	halfCell               // of a half-tone
)

// smooth fills the planes from the source.
func (f *Finder) smooth() {
	s, p := &f.source, &f.planes
	n := s.across * s.down
	for c := range p.raw {
		p.raw[c], p.flat[c] = pool.Resized(p.raw[c], n), pool.Resized(p.flat[c], n)
	}
	f.rows(s.down, func(y int) { p.readRow(s.linear, y*s.across, s.across) })
	p.noise = noiseOf(p.raw[0], s.left, s.across, s.down)
	f.markThin()
	for c := range p.raw {
		copy(p.flat[c], p.raw[c])
	}
	for range evenRounds {
		f.evenOut()
	}
}

// readRow turns a row of light, of which LinearWhite is white, into L*a*b*.
func (p *familyPlanes) readRow(linear []uint16, first, count int) {
	w := &fixed.LabWeights
	for i := first; i < first+count; i++ {
		c := linear[3*i:][:3]
		r, g, b := uint32(c[0]), uint32(c[1]), uint32(c[2])
		fx := fixed.LabRoots.Of(r*w[0][0] + g*w[0][1] + b*w[0][2])
		fy := fixed.LabRoots.Of(r*w[1][0] + g*w[1][1] + b*w[1][2])
		fz := fixed.LabRoots.Of(r*w[2][0] + g*w[2][1] + b*w[2][2])
		p.raw[0][i] = inCellLab(116*int64(fy) - 16*fixed.LabUnit)
		p.raw[1][i] = inCellLab(500 * int64(fx-fy))
		p.raw[2][i] = inCellLab(200 * int64(fy-fz))
	}
}

// inCellLab turns a number in 1/LabUnit into one in 1/cellLab.
func inCellLab(v int64) int32 {
	const shift = fixed.LabBits - cellLabBits
	return int32((v + 1<<(shift-1)) >> shift)
}

// away returns the squared distance of two smoothed cells, in 1/cellLab².
func (p *familyPlanes) away(i, k int) int64 {
	l, a, b := int64(p.flat[0][i]-p.flat[0][k]), int64(p.flat[1][i]-p.flat[1][k]), int64(p.flat[2][i]-p.flat[2][k])
	return l*l + a*a + b*b
}
