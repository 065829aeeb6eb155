package native

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"testing"

	"golang.org/x/image/bmp"
)

// bmpFile puts a BITMAPFILEHEADER before a bitmap, so that others can read it. Source:
// Microsoft, "BITMAPFILEHEADER structure (wingdi.h)".
func bmpFile(dib []byte) []byte {
	const headSize = 14
	b := binary.LittleEndian.AppendUint32([]byte("BM"), uint32(headSize+len(dib)))
	b = binary.LittleEndian.AppendUint32(b, 0)
	b = binary.LittleEndian.AppendUint32(b, headSize+40)
	return append(b, dib...)
}

// The decoder of golang.org/x/image sees the picture that was encoded, whatever its width
// leaves of a row.
func TestDIB(t *testing.T) {
	for _, size := range []image.Point{{1, 1}, {2, 3}, {3, 2}, {4, 1}, {61, 7}} {
		img := image.NewNRGBA(image.Rectangle{Max: size})
		for y := range size.Y {
			for x := range size.X {
				img.SetNRGBA(x, y, color.NRGBA{uint8(40 * x), uint8(50 * y), uint8(7*x + 11*y), 255})
			}
		}
		img.SetNRGBA(0, 0, color.NRGBA{0, 0, 0, 0}) // is to be white
		var file bytes.Buffer
		if err := png.Encode(&file, img); err != nil {
			t.Fatal(err)
		}
		b, err := dib(file.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		got, err := bmp.Decode(bytes.NewReader(bmpFile(b)))
		if err != nil || got.Bounds() != img.Rect {
			t.Fatalf("%v: %v, %v", size, got, err)
		}
		img.SetNRGBA(0, 0, color.NRGBA{255, 255, 255, 255})
		for y := range size.Y {
			for x := range size.X {
				if r, g, b, _ := got.At(x, y).RGBA(); (color.NRGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), 255}) != img.NRGBAAt(x, y) {
					t.Fatalf("%v: pixel %d, %d is %v, want %v", size, x, y, got.At(x, y), img.NRGBAAt(x, y))
				}
			}
		}
	}
	if _, err := dib([]byte("no picture")); err == nil {
		t.Error("no picture, and no error")
	}
}

// Whatever is copied as a PNG file is an error, or a bitmap of its size that another decoder
// reads.
func FuzzDIB(f *testing.F) {
	var file bytes.Buffer
	if err := png.Encode(&file, image.NewNRGBA(image.Rect(0, 0, 3, 2))); err != nil {
		f.Fatal(err)
	}
	f.Add(file.Bytes())
	f.Add(file.Bytes()[:40])
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := png.DecodeConfig(bytes.NewReader(data))
		if err == nil && c.Width > 1<<16/c.Height {
			return // what is copied is ours, and was accepted before
		}
		b, errDIB := dib(data)
		if errDIB != nil {
			return
		}
		got, errBMP := bmp.DecodeConfig(bytes.NewReader(bmpFile(b)))
		if err != nil || errBMP != nil || got.Width != c.Width || got.Height != c.Height {
			t.Errorf("%d x %d pixels became %+v: %v, %v", c.Width, c.Height, got, err, errBMP)
		}
	})
}
