package native

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
)

// dibHeadSize is the length of a BITMAPINFOHEADER in bytes. Source: wingdi.h.
const dibHeadSize = 40

// dib turns the bytes of a PNG file into what the clipboard of Windows knows as CF_DIB: a
// BITMAPINFOHEADER and rows of 24-bit pixels from the bottom up, each row of a multiple of
// four bytes. What is transparent is laid over white, since this format has no transparency.
// Source: Microsoft, "BITMAPINFOHEADER structure (wingdi.h)".
func dib(file []byte) ([]byte, error) {
	img, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		return nil, fmt.Errorf("read the picture to be copied: %w", err)
	}
	size := img.Bounds().Size()
	flat := image.NewRGBA(image.Rectangle{Max: size})
	draw.Draw(flat, flat.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(flat, flat.Rect, img, img.Bounds().Min, draw.Over)
	stride := (3*size.X + 3) &^ 3
	b := make([]byte, dibHeadSize+stride*size.Y)
	binary.LittleEndian.PutUint32(b, dibHeadSize)
	binary.LittleEndian.PutUint32(b[4:], uint32(size.X))
	binary.LittleEndian.PutUint32(b[8:], uint32(size.Y)) // positive: from the bottom up
	binary.LittleEndian.PutUint16(b[12:], 1)             // planes
	binary.LittleEndian.PutUint16(b[14:], 24)            // bits a pixel; the rest, 0, says RGB, uncompressed
	for y := range size.Y {
		from, to := flat.Pix[y*flat.Stride:], b[dibHeadSize+(size.Y-1-y)*stride:]
		for x := range size.X {
			to[3*x], to[3*x+1], to[3*x+2] = from[4*x+2], from[4*x+1], from[4*x]
		}
	}
	return b, nil
}
