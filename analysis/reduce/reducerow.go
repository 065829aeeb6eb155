package reduce

import (
	"encoding/binary"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/fixed"
)

// packedWidth is the widest picture whose rows can be summed two channels to a word: 65535
// times 65536 still fits half a word.
const packedWidth = 1 << 16

// packed is light added up, two sums to a word: red and blue, green and area, the former
// two of each pair in the lower halves.
type packed struct{ redBlue, greenArea uint64 }

func (l packed) unpack() [4]uint64 {
	return [4]uint64{
		uint64(uint32(l.redBlue)), uint64(uint32(l.greenArea)),
		l.redBlue >> 32, l.greenArea >> 32,
	}
}

// rowLight reads pixels of either layout as light.
type rowLight struct {
	first, third, green *[256]uint64
	opaque              uint32 // set in every pixel: the meaningless byte becomes alpha 255
}

func newRowLight(t *fixed.LightTables, layout analysis.Layout) rowLight {
	if layout == analysis.BGRX {
		return rowLight{&t.High, &t.Low, &t.Green, analysis.OpaqueWord}
	}
	return rowLight{&t.Low, &t.High, &t.Green, 0}
}

// of returns a pixel's light: none, and no area, if it is fully transparent.
func (l *rowLight) of(pixel []byte) packed {
	w := binary.LittleEndian.Uint32(pixel) | l.opaque
	if w < 1<<24 {
		return packed{}
	}
	return packed{l.first[uint8(w)] + l.third[uint8(w>>16)], l.green[uint8(w>>8)]}
}

// sumRow adds up a row of the picture inside each of some columns that lie side by side, by area.
// whole is how many columns the picture has.
func sumRow(row [][4]uint64, columns []column, whole uint64, src []byte, light rowLight) {
	if len(src) > analysis.PixelBytes*packedWidth {
		sumWideRow(row, columns, whole, src, light)
		return
	}
	src = src[analysis.PixelBytes*columns[0].first:]
	first, third, green, opaque := light.first, light.third, light.green, light.opaque
	edge, rest := light.of(src), src[analysis.PixelBytes:] // edge: the pixel where a column begins
	row = row[:len(columns)]
	for j := range columns {
		c := &columns[j]
		var sum packed
		for i := c.full; i > 0 && len(rest) >= analysis.PixelBytes; i-- {
			w := binary.LittleEndian.Uint32(rest) | opaque
			rest = rest[analysis.PixelBytes:]
			if w < 1<<24 {
				continue
			}
			sum.redBlue += first[uint8(w)] + third[uint8(w>>16)]
			sum.greenArea += green[uint8(w>>8)]
		}
		sum = packed{sum.redBlue*whole + edge.redBlue*c.head, sum.greenArea*whole + edge.greenArea*c.head}
		if len(rest) >= analysis.PixelBytes {
			edge, rest = light.of(rest), rest[analysis.PixelBytes:]
			sum = packed{sum.redBlue + edge.redBlue*c.tail, sum.greenArea + edge.greenArea*c.tail}
		}
		row[j] = sum.unpack()
	}
}

// sumWideRow does the same for any width, pixel by pixel.
func sumWideRow(row [][4]uint64, columns []column, whole uint64, src []byte, light rowLight) {
	for j, c := range columns {
		row[j] = [4]uint64{}
		add := func(x int, part uint64) {
			for i, sum := range light.of(src[analysis.PixelBytes*x:]).unpack() {
				row[j][i] += sum * part
			}
		}
		add(c.first, c.head)
		for x := range c.full {
			add(c.first+1+x, whole)
		}
		if c.tail > 0 {
			add(c.first+1+c.full, c.tail)
		}
	}
}
