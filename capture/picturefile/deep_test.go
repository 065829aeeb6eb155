package picturefile

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"slices"
	"testing"

	"golang.org/x/image/tiff"
)

// allGreys holds every number of 16 bits once.
func allGreys() *image.Gray16 {
	m := image.NewGray16(image.Rect(0, 0, 256, 256))
	for v := range 1 << 16 {
		m.SetGray16(v%256, v/256, color.Gray16{Y: uint16(v)})
	}
	return m
}

// asColours is the same in another kind of image.
func asColours(m interface {
	image.Image
	Set(x, y int, c color.Color)
}) image.Image {
	grey := allGreys()
	for v := range 1 << 16 {
		m.Set(v%256, v/256, grey.At(v%256, v/256))
	}
	return m
}

func encodedBy(t *testing.T, write func(*bytes.Buffer) error) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// deepAt joins what a picture has of a pixel's red, green and blue to 16 bits, by the words of
// capture.Frame.
func deepAt(p *Picture, x, y int) (c [3]int) {
	at := y*p.Stride + 4*x
	for i := range c {
		c[i] = 257*int(p.Pix[at+i]) + int(int8(p.Rest[at+i]))
	}
	return c
}

// Every number of 16 bits comes out of each kind of file as it was, one of 257 a step darker, and the
// 8 bits beside are the nearest.
func TestDecodeKeeps16Bits(t *testing.T) {
	square := image.Rect(0, 0, 256, 256)
	whole := asColours(image.NewRGBA64(square))
	clear := asColours(image.NewNRGBA64(square)).(*image.NRGBA64)
	clear.SetNRGBA64(255, 255, color.NRGBA64{}) // so that alpha is written
	write := func(m image.Image) []byte {
		return encodedBy(t, func(b *bytes.Buffer) error { return png.Encode(b, m) })
	}
	writeTIFF := func(m image.Image) []byte {
		return encodedBy(t, func(b *bytes.Buffer) error { return tiff.Encode(b, m, &tiff.Options{Compression: tiff.Deflate}) })
	}
	for name, file := range map[string][]byte{
		"grey png": write(allGreys()), "rgb png": write(whole), "rgba png": write(clear),
		"grey tiff": writeTIFF(allGreys()), "rgb tiff": writeTIFF(whole), "rgba tiff": writeTIFF(clear),
	} {
		p, err := Decode(file)
		if err != nil || p.Rest == nil || len(p.Rest) != len(p.Pix) {
			t.Fatalf("%s: %v, %d bytes of rest for %d", name, err, len(p.Rest), len(p.Pix))
		}
		for v := range 1<<16 - 1 {
			got, code := deepAt(p, v%256, v/256), int(p.Pix[v/256*p.Stride+4*(v%256)])
			want := v
			if v-257*code == 128 {
				want--
			}
			if got != [3]int{want, want, want} || 2*v < 257*(2*code-1) || 2*v > 257*(2*code+1) {
				t.Fatalf("%s: %d comes out as %v, in 8 bits %d", name, v, got, code)
			}
		}
	}
}

// Colours that were multiplied by their alpha come out straight to a step of 16 bits (a half of a
// half is a whole, and what is more than its alpha is all of it).
func TestDecode16BitsStraight(t *testing.T) {
	m := image.NewRGBA64(image.Rect(0, 0, 3, 1))
	m.SetRGBA64(0, 0, color.RGBA64{R: 0x4001, G: 0x2000, B: 0, A: 0x8002})
	m.SetRGBA64(1, 0, color.RGBA64{R: 0xffff, A: 0x8000})
	m.SetRGBA64(2, 0, color.RGBA64{R: 9})
	rows := deepRows(m, m.Rect.Size())
	for i, want := range []uint16{0x8000, 0x3fff, 0, 0x8002, 0xffff, 0, 0, 0x8000, 0, 0, 0, 0} {
		if got := binary.BigEndian.Uint16(rows[2*i:]); got != want {
			t.Errorf("number %d is %#x, want %#x", i, got, want)
		}
	}
}

// A picture of 16 bits is turned as one of 8.
func TestDecode16BitsUpright(t *testing.T) {
	m := image.NewNRGBA64(image.Rect(0, 0, 3, 2))
	for i := range 6 {
		m.SetNRGBA64(i%3, i/3, color.NRGBA64{R: uint16(1000*i + 7), A: 0xffff})
	}
	file := encodedBy(t, func(b *bytes.Buffer) error { return png.Encode(b, m) })
	chunk := append([]byte("eXIf"), exifData(binary.BigEndian, 6)...) // 6: row 0 is right, column 0 top
	size := binary.BigEndian.AppendUint32(nil, uint32(len(chunk)-4))
	sum := binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(chunk))
	p, err := Decode(slices.Concat(file[:33], size, chunk, sum, file[33:]))
	if err != nil || p.Size != image.Pt(2, 3) {
		t.Fatalf("%v, size %v", err, p.Size)
	}
	for i, from := range []int{3, 0, 4, 1, 5, 2} {
		if got := deepAt(p, i%2, i/2)[0]; got != 1000*from+7 {
			t.Errorf("pixel %d is %d, want that of %d", i, got, from)
		}
	}
}
