package palette

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
)

// A palette is counted in bins of 8 codes a side, 32 for each channel, and code by code in
// each.
const (
	binShift   = 3
	binCodes   = 1 << binShift
	binsASide  = 256 / binCodes
	binsInAll  = binsASide * binsASide * binsASide
	exactCodes = binCodes * binCodes * binCodes
)

// colourBins count a picture's colours.
type colourBins struct {
	space   *colour.Space     // of the codes
	bins    []colourBin       // binsInAll of them
	values  [colour.Steps]int // pixels by whole steps of value
	counted int               // pixels
	calm    int               // those in a calm place
}

// colourBin counts the pixels of one bin.
type colourBin struct {
	codes *[exactCodes]uint32 // pixels by codeInBin; nil if there are none
	count uint32              // all
	calm  uint32              // those in a calm place
	sums  [3]uint64           // their codes of red, green and blue, added up
}

// calmWithin is by how many codes a pixel may differ from its neighbours in a calm place:
// on the soft edge between two colours, pixels differ by more, and belong to neither.
const calmWithin = 6

// valueEdges are the least lights of the steps of value 1 to 9.
var valueEdges = func() *fixed.Steps {
	var edges [colour.Steps - 1]uint32
	for i := range edges {
		edges[i] = fixed.LightFrom(colour.YOfValue(float64(i + 1)))
	}
	s := new(fixed.Steps)
	s.Set(edges[:])
	return s
}()

// countColours counts the colours of what mask counts of a picture.
func countColours(p analysis.Pixels, mask *analysis.Mask) *colourBins {
	c := &colourBins{space: p.Space, bins: make([]colourBin, binsInAll)}
	eachCounted(p, mask, func(x, y int, code colour.RGB) {
		bin := &c.bins[binIndex(code)]
		if bin.codes == nil {
			bin.codes = new([exactCodes]uint32)
		}
		bin.codes[codeInBin(code)]++
		bin.count++
		if calm(p, x, y, code) {
			bin.calm++
			c.calm++
		}
		c.counted++
	})
	c.addUp()
	return c
}

// binIndex returns the number of the bin that holds a colour.
func binIndex(c colour.RGB) int {
	return (int(c.R>>binShift)*binsASide+int(c.G>>binShift))*binsASide + int(c.B>>binShift)
}

// codeInBin returns the number that a colour has among those of its bin.
func codeInBin(c colour.RGB) int {
	return (int(c.R%binCodes)*binCodes+int(c.G%binCodes))*binCodes + int(c.B%binCodes)
}

// colourInBin returns the colour of a number in a bin.
func colourInBin(bin, number int) colour.RGB {
	channel := func(binSide, side int) uint8 {
		return uint8(bin/binSide%binsASide*binCodes + number/side%binCodes)
	}
	return colour.RGB{R: channel(binsASide*binsASide, binCodes*binCodes), G: channel(binsASide, binCodes), B: channel(1, 1)}
}

// addUp adds up values and codes, once all pixels are counted.
func (c *colourBins) addUp() {
	share := &fixed.CodesOf(c.space).Bins.Share
	for i := range c.bins {
		b := &c.bins[i]
		b.each(i, func(code colour.RGB, n int) {
			c.values[valueEdges.Of(share[0][code.R]+share[1][code.G]+share[2][code.B])] += n
			b.sums[0] += uint64(n) * uint64(code.R)
			b.sums[1] += uint64(n) * uint64(code.G)
			b.sums[2] += uint64(n) * uint64(code.B)
		})
	}
}

// each calls do with the colours of a bin and how many pixels have them, in the order of
// codes.
func (b *colourBin) each(bin int, do func(code colour.RGB, n int)) {
	if b.codes == nil {
		return
	}
	for number, n := range b.codes {
		if n > 0 {
			do(colourInBin(bin, number), int(n))
		}
	}
}

// calm reports whether a pixel differs little from the one before it and the one above.
func calm(p analysis.Pixels, x, y int, c colour.RGB) bool {
	return (x == 0 || alike(p.Pixel(x-1, y), c)) && (y == 0 || alike(p.Pixel(x, y-1), c))
}

func alike(p, q colour.RGB) bool {
	d := func(a, b uint8) int { return max(int(a)-int(b), int(b)-int(a)) }
	return max(d(p.R, q.R), d(p.G, q.G), d(p.B, q.B)) <= calmWithin
}

// eachCounted calls do with every pixel of a picture, row by row, that mask counts and that
// is not transparent.
func eachCounted(p analysis.Pixels, mask *analysis.Mask, do func(x, y int, c colour.RGB)) {
	var left analysis.Left
	left.Set(mask, p.Bounds())
	bins := fixed.CodesOf(p.Space).Bins
	for y := range p.Height {
		for x := 0; x < p.Width; {
			end, counted := left.NextSpan(y, x, p.Width)
			for ; x < end; x++ {
				if !counted || p.Layout == analysis.RGBA && p.Pix[y*p.Stride+analysis.PixelBytes*x+3] == 0 {
					continue
				}
				if c := p.Pixel(x, y); mask == nil || !mask.LeavesOut(bins.Of(c.R, c.G, c.B)) {
					do(x, y, c)
				}
			}
		}
	}
}

// cell is a bin with pixels in it.
type cell struct {
	bin    int
	weight float64      // pixels that speak for it
	place  colour.Oklab // of its pixels' mean code
}

// cells returns the bins with pixels in them. The pixels in calm places speak for them; where
// these are less than a tenth of all, as in a grainy picture, all do.
func (c *colourBins) cells() []cell {
	var cells []cell
	for i := range c.bins {
		b := &c.bins[i]
		if b.count == 0 {
			continue
		}
		weight := float64(b.calm)
		if 10*c.calm < c.counted {
			weight = float64(b.count)
		}
		cells = append(cells, cell{i, weight, b.place(c.space)})
	}
	return cells
}

// place returns the mean of a bin's pixels.
func (b *colourBin) place(space *colour.Space) colour.Oklab {
	var light [3]float64
	for i := range light {
		light[i] = space.LinearOf(i, float64(b.sums[i])/float64(b.count)/255)
	}
	return colour.OklabOf(space.Light(light[0], light[1], light[2]))
}

// exactly returns for each bin the colour, in the picture's space, that most of its pixels have; the first in the
// order of codes, if several have as many.
func (c *colourBins) exactly(bins []int) []colour.RGB {
	colours := make([]colour.RGB, len(bins))
	for i, bin := range bins {
		most := 0
		c.bins[bin].each(bin, func(code colour.RGB, n int) {
			if n > most {
				colours[i], most = code, n
			}
		})
	}
	return colours
}

// nearest returns how many pixels are nearest to each of the places, on all cores.
func (c *colourBins) nearest(places []colour.Oklab) []int {
	const pieces = 64
	var counts [pieces][]int
	workers := pool.New(func(_, piece int) {
		counts[piece] = make([]int, len(places))
		for i := piece; i < len(c.bins); i += pieces {
			c.bins[i].each(i, func(code colour.RGB, n int) {
				k, _ := nearestOf(colour.OklabOf(c.space.LightOfCode(code)), places)
				counts[piece][k] += n
			})
		}
	})
	defer workers.Close()
	workers.Do(pieces)
	for _, part := range counts[1:] {
		for k, n := range part {
			counts[0][k] += n
		}
	}
	return counts[0]
}
