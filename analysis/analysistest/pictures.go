package analysistest

import (
	"math/rand/v2"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
)

// Set paints a pixel; in BGRX, alpha is the byte that means nothing.
func Set(p analysis.Pixels, x, y int, c colour.RGB, alpha uint8) {
	testkit.Picture{Pix: p.Pix, Stride: p.Stride, Width: p.Width, Height: p.Height, BGRX: p.Layout == analysis.BGRX}.Set(x, y, [3]uint8{c.R, c.G, c.B}, alpha)
}

func pixelsOf(p testkit.Picture) analysis.Pixels {
	layout := analysis.RGBA
	if p.BGRX {
		layout = analysis.BGRX
	}
	return analysis.Pixels{Pix: p.Pix, Stride: p.Stride, Width: p.Width, Height: p.Height, Layout: layout}
}

// Painting is testkit.Painting.
func Painting(width, height int, layout analysis.Layout) analysis.Pixels {
	return pixelsOf(testkit.Painting(width, height, layout == analysis.BGRX))
}

// Noise is testkit.Noise.
func Noise(width, height int, layout analysis.Layout) analysis.Pixels {
	return pixelsOf(testkit.Noise(width, height, layout == analysis.BGRX))
}

// RandomPixels is testkit.Random.
func RandomPixels(rng *rand.Rand, maxSide int) analysis.Pixels {
	return pixelsOf(testkit.Random(rng, maxSide))
}

// RandomMask leaves out some of p at random.
func RandomMask(rng *rand.Rand, p analysis.Pixels) *analysis.Mask {
	out := new(analysis.Mask)
	out.Areas, out.Lightness = testkit.RandomMask(rng, p.Width, p.Height)
	return out
}

// DrawColour draws any 8-bit colour.
func DrawColour(t *rapid.T, name string) colour.RGB {
	return colour.RGB{R: rapid.Byte().Draw(t, name+"R"), G: rapid.Byte().Draw(t, name+"G"), B: rapid.Byte().Draw(t, name+"B")}
}
