package analysis

import "math"

// A palette is counted in bins of 8 codes a side, 32 for each channel.
const (
	binShift   = 3
	binCodes   = 1 << binShift
	binsASide  = 256 / binCodes
	binsInAll  = binsASide * binsASide * binsASide
	exactCodes = binCodes * binCodes * binCodes
)

// colourBins count a picture's colours.
type colourBins struct {
	bins    []colourBin // binsInAll of them
	values  [Steps]int  // pixels by whole steps of value
	counted int         // pixels
}

// colourBin counts the pixels of one bin.
type colourBin struct {
	count, calm uint32    // all; those in a calm place
	rest        [3]uint64 // red, green and blue above the bin's corner, added up
}

// calmWithin is by how many codes a pixel may differ from its neighbours in a calm place:
// on the soft edge between two colours, pixels differ by more, and belong to neither.
const calmWithin = 6

// valueEdges are the least lights of the steps of value 1 to 9.
var valueEdges = func() *steps {
	var edges [Steps - 1]uint32
	for i := range edges {
		edges[i] = lightFrom(YOfValue(float64(i + 1)))
	}
	s := new(steps)
	s.set(edges[:])
	return s
}()

// countColours counts the colours of what out counts of a picture.
func countColours(p Pixels, out *Out) *colourBins {
	c := &colourBins{bins: make([]colourBin, binsInAll)}
	share := &planeTables.share
	eachCounted(p, out, func(x, y int, code RGB) {
		bin := &c.bins[binIndex(code)]
		bin.count++
		bin.rest[0] += uint64(code.R % binCodes)
		bin.rest[1] += uint64(code.G % binCodes)
		bin.rest[2] += uint64(code.B % binCodes)
		if calm(p, x, y, code) {
			bin.calm++
		}
		c.values[valueEdges.of(share[0][code.R]+share[1][code.G]+share[2][code.B])]++
		c.counted++
	})
	return c
}

// binIndex returns the number of the bin that holds a colour.
func binIndex(c RGB) int {
	return (int(c.R>>binShift)*binsASide+int(c.G>>binShift))*binsASide + int(c.B>>binShift)
}

// calm reports whether a pixel differs little from the one before it and the one above.
func calm(p Pixels, x, y int, c RGB) bool {
	return (x == 0 || alike(p.pixel(x-1, y), c)) && (y == 0 || alike(p.pixel(x, y-1), c))
}

func alike(p, q RGB) bool {
	d := func(a, b uint8) int { return max(int(a)-int(b), int(b)-int(a)) }
	return max(d(p.R, q.R), d(p.G, q.G), d(p.B, q.B)) <= calmWithin
}

// pixel returns the colour of a pixel of the picture, also of a transparent one.
func (p *Pixels) pixel(x, y int) RGB {
	q := p.Pix[y*p.Stride+pixelBytes*x:][:pixelBytes]
	if p.Layout == BGRX {
		return RGB{q[2], q[1], q[0]}
	}
	return RGB{q[0], q[1], q[2]}
}

// eachCounted calls do with every pixel of a picture, row by row, that out counts and that
// is not transparent.
func eachCounted(p Pixels, out *Out, do func(x, y int, c RGB)) {
	areas := out.clip(nil, p.Bounds())
	for y := range p.Height {
		for x := 0; x < p.Width; {
			end, counted := nextSpan(areas, y, x, p.Width)
			for ; x < end; x++ {
				if !counted || p.Layout == RGBA && p.Pix[y*p.Stride+pixelBytes*x+3] == 0 {
					continue
				}
				if c := p.pixel(x, y); out == nil || !out.leavesOut(planeTables.bin(c.R, c.G, c.B)) {
					do(x, y, c)
				}
			}
		}
	}
}

// cell is a bin with pixels in it.
type cell struct {
	bin    int
	count  int     // pixels
	weight float64 // pixels that speak for it
	place  Oklab   // of its pixels' mean code
}

// cells returns the bins with pixels in them. The pixels in calm places speak for them; where
// these are less than a tenth of all, as in a grainy picture, all do.
func (c *colourBins) cells() []cell {
	var calm int
	for i := range c.bins {
		calm += int(c.bins[i].calm)
	}
	var cells []cell
	for i := range c.bins {
		b := &c.bins[i]
		if b.count == 0 {
			continue
		}
		weight := float64(b.calm)
		if 10*calm < c.counted {
			weight = float64(b.count)
		}
		cells = append(cells, cell{i, int(b.count), weight, b.place(i)})
	}
	return cells
}

// place returns the mean of a bin's pixels.
func (b *colourBin) place(index int) Oklab {
	corner := [3]int{index / (binsASide * binsASide), index / binsASide % binsASide, index % binsASide}
	var light [3]float64
	for i := range light {
		code := float64(corner[i]*binCodes) + float64(b.rest[i])/float64(b.count)
		light[i] = LinearOf(code / 255)
	}
	return OklabOf(light[0], light[1], light[2])
}

// exactly returns for each bin the colour that most of its pixels have; the first in the
// order of codes, if several have as many.
func (c *colourBins) exactly(p Pixels, out *Out, bins []int) []RGB {
	const none = math.MaxUint8
	wanted := make([]uint8, binsInAll) // which of bins a bin is
	for i := range wanted {
		wanted[i] = none
	}
	for i, bin := range bins {
		wanted[bin] = uint8(i)
	}
	counts := make([][exactCodes]int, len(bins))
	eachCounted(p, out, func(_, _ int, code RGB) {
		if i := wanted[binIndex(code)]; i != none {
			rest := (int(code.R%binCodes)*binCodes+int(code.G%binCodes))*binCodes + int(code.B%binCodes)
			counts[i][rest]++
		}
	})
	colours := make([]RGB, len(bins))
	for i, bin := range bins {
		best := 0
		for rest, n := range counts[i] {
			if n > counts[i][best] {
				best = rest
			}
		}
		corner := func(side int) uint8 { return uint8(bin / side % binsASide * binCodes) }
		colours[i] = RGB{
			corner(binsASide*binsASide) + uint8(best/(binCodes*binCodes)),
			corner(binsASide) + uint8(best/binCodes%binCodes),
			corner(1) + uint8(best%binCodes),
		}
	}
	return colours
}
