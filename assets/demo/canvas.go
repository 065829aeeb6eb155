package main

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"
)

// A canvas is what the scene is painted on. Paint covers at full strength inside a
// shape and is mixed on the encoded values along its edge.
type canvas struct {
	img    *image.RGBA
	within *image.Alpha // where paint may go; nil: everywhere
}

// newCanvas returns a canvas covered evenly.
func newCanvas(width, height int, ground image.Image) *canvas {
	m := image.NewRGBA(image.Rect(0, 0, width, height))
	draw.Draw(m, m.Bounds(), ground, image.Point{}, draw.Src)
	return &canvas{img: m}
}

// fill paints the inside of shape.
func (c *canvas) fill(shape []point, with color.NRGBA) {
	c.glaze(shape, with, 1)
}

// glaze paints the inside of shape with paint that covers by the share opacity.
func (c *canvas) glaze(shape []point, with color.NRGBA, opacity float64) {
	m := c.cover(shape)
	if c.within != nil || opacity < 1 {
		c.thin(m, opacity)
	}
	draw.DrawMask(c.img, m.Rect, image.NewUniform(with), image.Point{}, m, m.Rect.Min, draw.Over)
}

// line draws a stroke that swells to width and tapers at its ends.
func (c *canvas) line(edge string, width float64, with color.NRGBA) {
	c.fill(ribbon(open(edge), width, 0.85), with)
}

// contour draws an even line all the way along a closed shape.
func (c *canvas) contour(shape []point, width float64, with color.NRGBA) {
	c.fill(ribbon(append(shape, shape[0]), width, 0), with)
}

// inside runs paint so that nothing goes beyond shape.
func (c *canvas) inside(shape []point, paint func()) {
	c.within = c.cover(shape)
	paint()
	c.within = nil
}

// cover returns how much of each pixel shape covers, over the shape's own rectangle cut
// to the canvas.
func (c *canvas) cover(shape []point) *image.Alpha {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range shape {
		x0, y0, x1, y1 = min(x0, p.x), min(y0, p.y), max(x1, p.x), max(y1, p.y)
	}
	r := image.Rect(int(math.Floor(x0)), int(math.Floor(y0)), int(math.Ceil(x1)), int(math.Ceil(y1)))
	m := image.NewAlpha(r)
	z := vector.NewRasterizer(r.Dx(), r.Dy())
	z.DrawOp = draw.Src
	for i, p := range shape {
		x, y := float32(p.x-float64(r.Min.X)), float32(p.y-float64(r.Min.Y))
		if i == 0 {
			z.MoveTo(x, y)
		} else {
			z.LineTo(x, y)
		}
	}
	z.ClosePath()
	z.Draw(m, r, image.Opaque, image.Point{})
	return m
}

// thin weakens m by opacity and by where paint may go.
func (c *canvas) thin(m *image.Alpha, opacity float64) {
	for y := m.Rect.Min.Y; y < m.Rect.Max.Y; y++ {
		for x := m.Rect.Min.X; x < m.Rect.Max.X; x++ {
			covered := &m.Pix[m.PixOffset(x, y)]
			a := float64(*covered) * opacity
			if c.within != nil {
				a *= float64(c.within.AlphaAt(x, y).A) / 255
			}
			*covered = uint8(a + 0.5)
		}
	}
}

// glow lays paint over a soft round: full at (x, y), nothing from radius r outward.
func (c *canvas) glow(x, y, r float64, with color.NRGBA, opacity float64) {
	const rings = 48
	for i := range rings {
		t := 1 - float64(i)/rings
		c.glaze(disc(x, y, r*t, r*t), with, opacity/rings*1.6)
	}
}
