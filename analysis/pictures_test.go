package analysis

import (
	"math/rand/v2"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
)

// Set paints a pixel; in BGRX, alpha is the byte that means nothing.
func set(p Pixels, x, y int, c colour.RGB, alpha uint8) {
	testkit.Picture{Pix: p.Pix, Stride: p.Stride, Width: p.Width, Height: p.Height, BGRX: p.Layout == BGRX}.Set(x, y, [3]uint8{c.R, c.G, c.B}, alpha)
}

func pixelsOf(p testkit.Picture) Pixels {
	layout := RGBA
	if p.BGRX {
		layout = BGRX
	}
	return Pixels{Pix: p.Pix, Stride: p.Stride, Width: p.Width, Height: p.Height, Layout: layout}
}

func painting(width, height int, layout Layout) Pixels {
	return pixelsOf(testkit.Painting(width, height, layout == BGRX))
}

func noise(width, height int, layout Layout) Pixels {
	return pixelsOf(testkit.Noise(width, height, layout == BGRX))
}

func randomPixels(rng *rand.Rand, maxSide int) Pixels { return pixelsOf(testkit.Random(rng, maxSide)) }

func randomOut(rng *rand.Rand, p Pixels) *Mask {
	out := new(Mask)
	out.Areas, out.Lightness = testkit.RandomMask(rng, p.Width, p.Height)
	return out
}
