package native

import (
	"bytes"
	"image"
	"image/color"
	"testing"
)

// Pixels as servers store them: X Window System Protocol, X11R7.7, chapter 8; the bits worked out by hand.
func TestPack(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 1, 2))
	img.SetRGBA(0, 1, color.RGBA{R: 255, G: 128, B: 8, A: 255})
	for _, tt := range []struct {
		name   string
		format pixelFormat
		want   []byte
	}{
		{"depth 24 in 32 bits", pixelFormat{4, 4, [3]uint32{0xff0000, 0xff00, 0xff}}, []byte{8, 128, 255, 0}},
		{"depth 24 in 24 bits", pixelFormat{3, 4, [3]uint32{0xff0000, 0xff00, 0xff}}, []byte{8, 128, 255, 0}},
		{"depth 16: 31, 32, 1", pixelFormat{2, 4, [3]uint32{0xf800, 0x7e0, 0x1f}}, []byte{0x01, 0xfc, 0, 0}},
		{"depth 30: 1023, 514, 32", pixelFormat{4, 4, [3]uint32{0x3ff00000, 0xffc00, 0x3ff}}, []byte{0x20, 0x08, 0xf8, 0x3f}},
	} {
		if got := tt.format.pack(img, 1, 1); !bytes.Equal(got, tt.want) {
			t.Errorf("%s: % x, want % x", tt.name, got, tt.want)
		}
	}
}
