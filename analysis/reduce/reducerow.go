package reduce

import (
	"encoding/binary"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/fixed"
)

// rowLight reads pixels of either layout as light, three channels to a word.
type rowLight struct {
	first, second, third *[256]uint64
	opaque               uint32 // set in every pixel: the meaningless byte becomes alpha 255
}

func newRowLight(t *fixed.LightTables, layout analysis.Layout) rowLight {
	if layout == analysis.BGRX {
		return rowLight{&t.Blue, &t.Green, &t.Red, analysis.OpaqueWord}
	}
	return rowLight{&t.Red, &t.Green, &t.Blue, 0}
}

// sumUp writes the light of all pixels before each of a row, and of all, to sums, which has one more
// element than the row has pixels; and returns whether any of them is fully transparent. Sums wrap: what is
// between two that are no more than fixed.MostSummed pixels apart is exact all the same.
func (l *rowLight) sumUp(sums []uint64, src []byte) (clear bool) {
	first, second, third, opaque := l.first, l.second, l.third, uint64(l.opaque)<<32|uint64(l.opaque)
	sums[0] = 0
	to := sums[1 : 1+len(src)/analysis.PixelBytes]
	var sum, one, two, last uint64
	if len(src) >= 2*analysis.PixelBytes {
		last = ^binary.LittleEndian.Uint64(src) // no pair is like it to begin with
	}
	all := ^uint64(0) // its bits 8 and 40 stay set while no alpha is 0
	for len(src) >= 2*analysis.PixelBytes && len(to) >= 2 {
		w := binary.LittleEndian.Uint64(src) | opaque
		if w != last { // painted pictures are full of flat patches
			last = w
			all &= w>>24&0xff_000000ff + 0xff_000000ff
			one = first[uint8(w)] + second[uint8(w>>8)] + third[uint8(w>>16)]
			two = one + first[uint8(w>>32)] + second[uint8(w>>40)] + third[uint8(w>>48)]
		}
		to[0], to[1] = sum+one, sum+two
		sum += two
		src, to = src[2*analysis.PixelBytes:], to[2:]
	}
	if len(src) >= analysis.PixelBytes && len(to) > 0 {
		w := binary.LittleEndian.Uint32(src) | l.opaque
		all &= uint64(w>>24) + 0xff | 1<<40
		to[0] = sum + first[uint8(w)] + second[uint8(w>>8)] + third[uint8(w>>16)]
	}
	return all&(1<<8|1<<40) != 1<<8|1<<40
}

// sumRow adds what a row of the picture has inside each of some columns that lie side by side to their
// sums, by area, out of sums that sumUp made from pixel from on. whole is how many parts a pixel has.
func sumRow(to [][4]uint64, columns []column, whole uint64, sums []uint64, from int) {
	to = to[:len(columns)]
	var before [4]uint64 // what the pixel where a column begins has in the one before
	if c := &columns[0]; c.head < whole {
		addSum(&before, sums[1+c.first-from]-sums[c.first-from], whole-c.head)
	}
	red, green, blue := before[0], before[1], before[2]
	for j := range columns {
		c, box := &columns[j], &to[j]
		i := c.first - from
		end := i + 1 + c.full
		for ; end-i > fixed.MostSummed; i += fixed.MostSummed {
			addSum(box, sums[i+fixed.MostSummed]-sums[i], whole)
		}
		sum := sums[end] - sums[i]
		r, g, b := sum&fixed.SumMask*whole-red, sum>>fixed.SumBits&fixed.SumMask*whole-green, sum>>(2*fixed.SumBits)*whole-blue
		red, green, blue = 0, 0, 0
		if c.tail > 0 {
			light := sums[end+1] - sums[end]
			red, green, blue = light&fixed.SumMask*c.tail, light>>fixed.SumBits&fixed.SumMask*c.tail, light>>(2*fixed.SumBits)*c.tail
		}
		box[0] += r + red // wraps and unwraps
		box[1] += g + green
		box[2] += b + blue
		box[3] += c.wide
	}
}

// addSum adds a word of sums so many times.
func addSum(box *[4]uint64, sum, times uint64) {
	box[0] += sum & fixed.SumMask * times
	box[1] += sum >> fixed.SumBits & fixed.SumMask * times
	box[2] += sum >> (2 * fixed.SumBits) * times
}

// sumClearRow does what sumRow does for a row in which pixels are fully transparent, which have neither
// light nor area: pixel by pixel.
func sumClearRow(to [][4]uint64, columns []column, whole uint64, src []byte, light *rowLight) {
	for j, c := range columns {
		box := &to[j]
		add := func(x int, part uint64) {
			w := binary.LittleEndian.Uint32(src[analysis.PixelBytes*x:]) | light.opaque
			if w >= 1<<24 {
				addSum(box, light.first[uint8(w)]+light.second[uint8(w>>8)]+light.third[uint8(w>>16)], part)
				box[3] += part
			}
		}
		if c.full >= 0 {
			add(c.first, c.head)
		}
		for x := range c.full {
			add(c.first+1+x, whole)
		}
		if c.tail > 0 {
			add(c.first+1+c.full, c.tail)
		}
	}
}
