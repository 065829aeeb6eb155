package picturefile

import (
	"bytes"
	"image"
	"image/color"
	"testing"
)

// Each kind of picture that a decoder may give comes out as straight, 8-bit RGBA.
func TestStraightRows(t *testing.T) {
	r := image.Rect(0, 0, 2, 2)
	fill := func(m interface {
		image.Image
		Set(x, y int, c color.Color)
	}, c color.Color) image.Image {
		for i := range 4 {
			m.Set(i%2, i/2, c)
		}
		return m
	}
	ycbcr := image.NewYCbCr(r, image.YCbCrSubsampleRatio420)
	for i := range 4 {
		ycbcr.Y[i] = 76
	}
	ycbcr.Cb[0], ycbcr.Cr[0] = 85, 255
	half := color.NRGBA64{0xffff, 0x8000, 0, 0x8000}
	tests := []struct {
		name string
		img  image.Image
		want [4]byte
	}{
		{"straight", fill(image.NewNRGBA(r), color.NRGBA{250, 3, 2, 1}), [4]byte{250, 3, 2, 1}},
		{"multiplied: 100/200 of 255 is 127.5", &image.RGBA{Pix: bytes.Repeat([]byte{100, 200, 0, 200}, 4), Stride: 8, Rect: r}, [4]byte{128, 255, 0, 200}},
		{"multiplied, more than its alpha", &image.RGBA{Pix: bytes.Repeat([]byte{9, 9, 9, 8}, 4), Stride: 8, Rect: r}, [4]byte{255, 255, 255, 8}},
		{"multiplied, clear", &image.RGBA{Pix: bytes.Repeat([]byte{9, 9, 9, 0}, 4), Stride: 8, Rect: r}, [4]byte{0, 0, 0, 0}},
		{"16 bits, 0x8000 of 0xffff is 127.5", fill(image.NewNRGBA64(r), half), [4]byte{255, 128, 0, 128}},
		{"16 bits, just under 127.5", fill(image.NewNRGBA64(r), color.NRGBA64{0x7fff, 0, 0, 0xffff}), [4]byte{127, 0, 0, 255}},
		{"16 bits multiplied", fill(image.NewRGBA64(r), color.RGBA64{0x4000, 0x2000, 0, 0x8000}), [4]byte{128, 64, 0, 128}},
		{"grey", fill(image.NewGray(r), color.Gray{77}), [4]byte{77, 77, 77, 255}},
		{"16-bit grey, nearest is up", fill(image.NewGray16(r), color.Gray16{0x77fe}), [4]byte{0x78, 0x78, 0x78, 255}},
		{"palette", image.NewPaletted(r, color.Palette{color.NRGBA{1, 2, 3, 100}}), [4]byte{1, 2, 3, 100}},
		{"code outside the palette", &image.Paletted{Pix: []byte{7, 7, 7, 7}, Stride: 2, Rect: r}, [4]byte{}},
		{"JFIF red (T.871: Y 76, Cb 85, Cr 255)", ycbcr, [4]byte{254, 0, 0, 255}},
		{"inks", fill(image.NewCMYK(r), color.CMYK{255, 0, 0, 0}), [4]byte{0, 255, 255, 255}},
	}
	for _, tt := range tests {
		got := rowsOf(tt.img, r.Max)
		if want := bytes.Repeat(tt.want[:], 4); !bytes.Equal(got, want) {
			t.Errorf("%s: %v, want %v", tt.name, got, want)
		}
	}
}

// rowsOf returns an image as RGBA rows of 8 bits.
func rowsOf(img image.Image, size image.Point) []byte {
	deep := deepRows(img, size)
	if deep == nil {
		return straightRows(img, size)
	}
	pix, _ := split(deep, size.X)
	var rows []byte
	for y := range size.Y {
		rows = append(rows, pix[y*deepBytes*size.X:][:pixelBytes*size.X]...)
	}
	return rows
}

// A picture smaller than its canvas (a GIF's first) lies where it belongs.
func TestStraightRowsOnCanvas(t *testing.T) {
	part := image.NewPaletted(image.Rect(1, 1, 5, 2), color.Palette{color.Gray{7}})
	got := straightRows(part, image.Pt(3, 2))
	want := make([]byte, 24)
	copy(want[16:], []byte{7, 7, 7, 255, 7, 7, 7, 255})
	if !bytes.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if deep := image.NewNRGBA64(image.Rect(0, 0, 8, 8)).SubImage(image.Rect(2, 2, 4, 4)); len(rowsOf(deep, image.Pt(3, 3))) != 36 {
		t.Error("part of a larger picture of 16 bits")
	}
	if straight := image.NewNRGBA(image.Rect(0, 0, 8, 8)).SubImage(image.Rect(2, 2, 4, 4)); len(straightRows(straight, image.Pt(3, 3))) != 36 {
		t.Error("part of a larger picture")
	}
}
