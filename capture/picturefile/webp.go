package picturefile

import (
	"image"
	"io"
	"math"

	"golang.org/x/image/webp"
)

// webpDecode decodes a WebP picture. Lossy ones hold luma from 16 to 235 and colour
// differences from 16 to 240 (RFC 6386, 9.2: as in ITU-R BT.601), which the
// library hands over as if they filled 0 to 255.
func webpDecode(r io.Reader) (image.Image, error) {
	img, err := webp.Decode(r)
	switch m := img.(type) {
	case *image.YCbCr:
		return fromStudio(m, nil), err
	case *image.NYCbCrA:
		return fromStudio(&m.YCbCr, func(x, y int) uint8 { return m.A[m.AOffset(x, y)] }), err
	}
	return img, err
}

// Factors of ITU-R BT.601-7, 2.5.1 and 2.5.2, for 16 digits of two after the point: what a
// step of luma adds to each colour, and one of each difference to red, green and blue.
var (
	studioLuma  = studioFactor(1, 219)
	studioRed   = studioFactor(1.402, 224)
	studioBlue  = studioFactor(1.772, 224)
	studioGreen = [2]int32{studioFactor(1.772*0.114/0.587, 224), studioFactor(1.402*0.299/0.587, 224)}
)

func studioFactor(times, steps float64) int32 { return int32(math.Round(65536 * times * 255 / steps)) }

// fromStudio returns m in red, green and blue; alpha, if not nil, tells how opaque a pixel is.
func fromStudio(m *image.YCbCr, alpha func(x, y int) uint8) *image.NRGBA {
	out := image.NewNRGBA(m.Rect)
	for y := m.Rect.Min.Y; y < m.Rect.Max.Y; y++ {
		row := out.Pix[out.PixOffset(m.Rect.Min.X, y):]
		for x := m.Rect.Min.X; x < m.Rect.Max.X; x++ {
			c := m.COffset(x, y)
			luma := studioLuma*(int32(m.Y[m.YOffset(x, y)])-16) + 1<<15
			cb, cr := int32(m.Cb[c])-128, int32(m.Cr[c])-128
			p := row[4*(x-m.Rect.Min.X):][:4]
			p[0] = studioCode(luma + studioRed*cr)
			p[1] = studioCode(luma - studioGreen[0]*cb - studioGreen[1]*cr)
			p[2] = studioCode(luma + studioBlue*cb)
			p[3] = 255
			if alpha != nil {
				p[3] = alpha(x, y)
			}
		}
	}
	return out
}

func studioCode(v int32) uint8 { return uint8(max(0, min(v>>16, 255))) }
