package picturefile

import (
	"encoding/binary"
	"image"
)

// deepBytes is what a pixel of 16 bits a channel takes.
const deepBytes = 8

// deepWhite is the greatest number of a channel of 16 bits, and deepStep what a step of 8 bits has
// of them.
const (
	deepWhite = 0xffff
	deepStep  = deepWhite / 255
)

// deepRows returns an image of 16 bits a channel, size pixels, as rows without gaps of straight RGBA
// of 16 bits, the high byte first; nil for any other image. It may take over img's memory.
func deepRows(img image.Image, size image.Point) []byte {
	if img.Bounds() != (image.Rectangle{Max: size}) {
		return nil
	}
	switch m := img.(type) {
	case *image.NRGBA64:
		if m.Stride == deepBytes*size.X {
			return m.Pix[:m.Stride*size.Y]
		}
	case *image.RGBA64:
		rows := deepRows((*image.NRGBA64)(m), size)
		if !m.Opaque() {
			for at := 0; at+deepBytes <= len(rows); at += deepBytes {
				straightenDeep(rows[at:])
			}
		}
		return rows
	case *image.Gray16:
		rows := make([]byte, deepBytes*size.X*size.Y)
		for y := range size.Y {
			row := m.Pix[y*m.Stride:]
			for x := range size.X {
				grey := uint64(binary.BigEndian.Uint16(row[2*x:]))
				binary.BigEndian.PutUint64(rows[deepBytes*(y*size.X+x):], grey*0x1_0001_0001_0000|deepWhite)
			}
		}
		return rows
	}
	return nil
}

// straightenDeep divides the colours of a pixel by its alpha.
func straightenDeep(pixel []byte) {
	alpha := uint32(binary.BigEndian.Uint16(pixel[6:]))
	for channel := pixel[:6]; len(channel) > 0; channel = channel[2:] {
		v := uint32(0)
		if alpha > 0 {
			v = min((uint32(binary.BigEndian.Uint16(channel))*deepWhite+alpha/2)/alpha, deepWhite)
		}
		binary.BigEndian.PutUint16(channel, uint16(v))
	}
}

// split turns each row of 16-bit pixels, in place, into the nearest 8-bit ones and what that took
// away: see capture.Frame. A rest of 128 is written as 127, since it is a byte.
func split(rows []byte, width int) (pix, rest []byte) {
	half, stride := pixelBytes*width, deepBytes*width
	row := make([]byte, stride)
	for at := 0; at < len(rows); at += stride {
		copy(row, rows[at:])
		codes, rests := rows[at:][:half], rows[at+half:][:half]
		for i := range codes {
			v := int(binary.BigEndian.Uint16(row[2*i:]))
			code := (v + deepStep/2) / deepStep
			codes[i], rests[i] = byte(code), byte(int8(min(v-deepStep*code, 127)))
		}
	}
	return rows[:len(rows)-half], rows[half:]
}
