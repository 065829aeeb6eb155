package guitest

import (
	"image"
	"image/color"
	"image/draw"
)

// Light and Shadow are the two sides of skin, 2.2 tones apart (computed from CIE 15 and ASTM
// D1535).
var (
	Light  = color.NRGBA{0xe2, 0xab, 0x85, 255}
	Shadow = color.NRGBA{0xb2, 0x6a, 0x5c, 255}
)

// Halves paints a picture of 400 × 300 pixels whose halves have a colour each.
func Halves(left, right color.NRGBA) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 400, 300))
	draw.Draw(img, image.Rect(0, 0, 200, 300), image.NewUniform(left), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(200, 0, 400, 300), image.NewUniform(right), image.Point{}, draw.Src)
	return img
}
