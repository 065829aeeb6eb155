package families

import (
	"bytes"
	"encoding/binary"
	"image"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
	"app.tonedesk/analysis/reduce"
)

// familyCells is how many cells a picture is reduced to: about 520 by 290, so that
// a shadow a sixtieth of the picture's height wide is no line.
const familyCells = 150000

// familySource is what is kept of a frame: the mean of each cell in linear light, its darkest
// pixel, and whether it is left out.
type familySource struct {
	width, height int // of the frame, pixels
	grid          reduce.Grid
	across, down  int // cells
	linear        []uint16
	left          []uint8
	dark          []uint32        // the darkest pixel in sRGB, as red, green, blue from the lowest byte on
	frame         image.Rectangle // cells; what lies beyond is no part of the picture
	beyond        []uint8         // 1 where a cell that is left out is no part of it either
	border        int             // length of the picture's border, cells
	inner         []int32         // the cells that meet what lies beyond inside the frame
	counted       int             // cells
	countedBeyond int             // pixels of the workspace around that count for whoever asks
	whole         float64         // cells that count for whoever asks: with the workspace around, if that does
}

// Take reduces a frame to what Find works on. The frame isn't kept.
func (f *Finder) Take(p analysis.Pixels, mask *analysis.Mask) {
	to := f.To(p, mask)
	f.TakeReduced(p, to, f.reducer.ReduceTo(p, to))
}

// orNone returns a frame, or none where it has no pixels: a row of none has no border either.
func orNone(p analysis.Pixels) analysis.Pixels {
	if p.Check() != nil || p.Width == 0 || p.Height == 0 {
		return analysis.Pixels{}
	}
	return p
}

// To returns what TakeReduced wants a frame reduced to.
func (f *Finder) To(p analysis.Pixels, mask *analysis.Mask) reduce.To {
	s := &f.source
	p = orNone(p)
	mask, s.countedBeyond = withoutWorkspace(p, mask)
	s.grid = gridOf(image.Pt(p.Width, p.Height), canvasOf(p.Width, p.Height, mask))
	grid := s.grid // the caller's own
	return reduce.To{Size: grid.Count(), Out: mask, Grid: &grid}
}

// TakeReduced is Take of a frame that is reduced already, to what To has just said of it. Find works
// on the reduced one.
func (f *Finder) TakeReduced(p analysis.Pixels, to reduce.To, reduced *reduce.Picture) {
	s := &f.source
	f.forms.found = nil
	p = orNone(p)
	s.width, s.height = p.Width, p.Height
	s.across, s.down = to.Size.X, to.Size.Y
	s.linear, s.left = reduced.Linear, reduced.Left
	s.counted = 0
	for _, left := range s.left {
		s.counted += int(1 - left)
	}
	s.whole = float64(s.counted)
	if s.countedBeyond > 0 {
		s.whole += float64(s.countedBeyond) * s.grid.X.Parts() * s.grid.Y.Parts() / (float64(p.Width) * float64(p.Height))
	}
	s.dark = pool.Resized(s.dark, s.across*s.down)
	f.rows(s.down, func(y int) { s.darkest(p, y) })
	s.findFrame(to.Out)
}

// canvasOf returns what of a picture remains where areas are cut off its sides; areas inside of it
// cut off nothing.
func canvasOf(width, height int, mask *analysis.Mask) image.Rectangle {
	r := image.Rect(0, 0, width, height)
	if mask == nil {
		return r
	}
	for range 2 { // what is cut off on top makes that at the left as high as the rest
		for _, area := range mask.Areas {
			cut := area.Canon().Intersect(r)
			switch {
			case cut.Empty() || cut == r:
			case cut.Dx() == r.Dx() && cut.Min.Y == r.Min.Y:
				r.Min.Y = cut.Max.Y
			case cut.Dx() == r.Dx() && cut.Max.Y == r.Max.Y:
				r.Max.Y = cut.Min.Y
			case cut.Dy() == r.Dy() && cut.Min.X == r.Min.X:
				r.Min.X = cut.Max.X
			case cut.Dy() == r.Dy() && cut.Max.X == r.Max.X:
				r.Max.X = cut.Min.X
			}
		}
	}
	return r
}

// darkest finds the darkest pixel of each cell of row y; a pixel belongs to the cell its
// centre lies in.
func (s *familySource) darkest(p analysis.Pixels, y int) {
	red, blue := 0, 16
	opaque := uint32(0)
	if p.Layout == analysis.BGRX {
		red, blue, opaque = 16, 0, analysis.OpaqueWord
	}
	codes := fixed.CodesOf(p.Space)
	share := &codes.Bins.Share
	top, foot := s.grid.Y.PixelsOf(y)
	for x := range s.across {
		from, to := s.grid.X.PixelsOf(x)
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
		c := codes.SRGB(colour.RGB{R: uint8(word >> red), G: uint8(word >> 8), B: uint8(word >> blue)})
		s.dark[y*s.across+x] = uint32(c.R) | uint32(c.G)<<8 | uint32(c.B)<<16
	}
}

// frameMost is the part of a frame that is left out by colour, at most, for a background to run
// round it.
const frameMost = 0.2

// canvasPart is the part of the smallest rectangle around what is counted that it fills at least
// to be a canvas, turned or not: a disc fills 0.785 of it, an octagon 0.83 (computed).
const canvasPart = 0.9

// findFrame finds where the picture ends: at its frame, and wherever what is counted meets what
// is left out around the canvas. What is left out by areas is such; what is left out by its
// colour is where what is counted is a canvas, else it is the paper that forms stand on, and no
// border.
func (s *familySource) findFrame(mask *analysis.Mask) {
	s.beyond = pool.Resized(s.beyond, len(s.left))
	if mask != nil && mask.Grown != nil && s.isCanvas() {
		copy(s.beyond, s.left)
	} else {
		clear(s.beyond)
	}
	if mask != nil {
		for _, area := range mask.Areas {
			cells := s.grid.CentresIn(area.Canon().Intersect(image.Rect(0, 0, s.width, s.height)))
			for y := cells.Min.Y; y < cells.Max.Y; y++ {
				for x := cells.Min.X; x < cells.Max.X; x++ {
					s.beyond[y*s.across+x] = 1
				}
			}
		}
	}
	s.frame = frameWithin(s.across, s.down, s.left, s.beyond)
	s.measureBorder()
}

// frameWithin returns where the picture's frame lies: around what is counted, without the
// rows and columns that are left out as a whole, such as the workspace around a canvas. Where
// that leaves forms on nothing, the whole picture is the frame; what lies beyond a canvas is
// not nothing.
func frameWithin(across, down int, left, beyond []uint8) image.Rectangle {
	whole := image.Rect(0, 0, across, down)
	count := func(part image.Rectangle, but []uint8) (cells int) {
		for y := part.Min.Y; y < part.Max.Y; y++ {
			for i := y*across + part.Min.X; i < y*across+part.Max.X; i++ {
				if left[i] != 0 && (but == nil || but[i] == 0) {
					cells++
				}
			}
		}
		return cells
	}
	r := whole
	for side, inward := range [4]image.Rectangle{{Min: image.Pt(0, 1)}, {Max: image.Pt(0, -1)}, {Min: image.Pt(1, 0)}, {Max: image.Pt(-1, 0)}} {
		for !r.Empty() && count(sidesOf(r)[side], nil) == sidesOf(r)[side].Dx()*sidesOf(r)[side].Dy() {
			r = image.Rectangle{Min: r.Min.Add(inward.Min), Max: r.Max.Add(inward.Max)}
		}
	}
	if r.Empty() {
		return whole
	}
	cells := 0
	for _, side := range sidesOf(r) {
		cells += count(side, beyond)
	}
	if float64(cells) > frameMost*float64(2*(r.Dx()+r.Dy())) {
		return whole
	}
	return r
}

// isCanvas reports whether what is counted fills a rectangle, turned by any angle.
func (s *familySource) isCanvas() bool {
	var corners []image.Point // the first and the last cell of each row, each with its four corners
	for y := range s.down {
		row := s.left[y*s.across:][:s.across]
		first, last := bytes.IndexByte(row, 0), bytes.LastIndexByte(row, 0)
		if first >= 0 {
			corners = append(corners, image.Pt(first, y), image.Pt(first, y+1), image.Pt(last+1, y), image.Pt(last+1, y+1))
		}
	}
	least := math.Inf(1) // area of the rectangle
	for degrees := range 90 {
		sin, cos := math.Sincos(float64(degrees) * math.Pi / 180)
		low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
		for _, c := range corners {
			for i, v := range [2]float64{cos*float64(c.X) + sin*float64(c.Y), cos*float64(c.Y) - sin*float64(c.X)} {
				low[i], high[i] = min(low[i], v), max(high[i], v)
			}
		}
		least = min(least, (high[0]-low[0])*(high[1]-low[1]))
	}
	return float64(s.counted) >= canvasPart*least
}

// beyondSides tells on which sides, top, right, foot and left, a cell inside the frame meets what
// lies beyond, but for the frame's own sides.
func (s *familySource) beyondSides(i int) (sides [4]bool) {
	x, y := i%s.across, i/s.across
	for side, by := range [4]image.Point{{0, -1}, {1, 0}, {0, 1}, {-1, 0}} {
		at := image.Pt(x, y).Add(by)
		sides[side] = at.In(s.frame) && s.beyond[at.Y*s.across+at.X] != 0
	}
	return sides
}

// measureBorder measures the picture's border: the frame's sides, without what lies beyond,
// and where what is counted meets that.
func (s *familySource) measureBorder() {
	s.border, s.inner = 0, s.inner[:0]
	for _, side := range sidesOf(s.frame) {
		for y := side.Min.Y; y < side.Max.Y; y++ {
			for _, beyond := range s.beyond[y*s.across+side.Min.X : y*s.across+side.Max.X] {
				s.border += 1 - int(beyond)
			}
		}
	}
	for y := s.frame.Min.Y; y < s.frame.Max.Y; y++ {
		for i := y*s.across + s.frame.Min.X; i < y*s.across+s.frame.Max.X; i++ {
			if s.left[i] != 0 {
				continue
			}
			before := s.border
			for _, meets := range s.beyondSides(i) {
				if meets {
					s.border++
				}
			}
			if s.border > before {
				s.inner = append(s.inner, int32(i))
			}
		}
	}
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
