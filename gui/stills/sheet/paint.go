package sheet

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
)

// canvas is a page as it is painted.
type canvas struct {
	img    *image.RGBA
	k      float64 // pixels for a mm
	drawer ink.Drawer
}

// Image paints the page, so many pixels to a millimetre (8 are 203 dots an inch).
func (p *Page) Image(pixelsPerMM float64) *image.RGBA {
	c := &canvas{k: pixelsPerMM}
	c.img = image.NewRGBA(image.Rect(0, 0, int(math.Round(p.Width*c.k)), int(math.Round(p.Height*c.k))))
	draw.Draw(c.img, c.img.Rect, image.White, image.Point{}, draw.Src)
	for _, i := range p.items {
		i.paint(c)
	}
	return c.img
}

// pixels returns the pixels of a box: neighbouring boxes share an edge without a gap.
func (c *canvas) pixels(b Box) image.Rectangle {
	at := func(mm float64) int { return int(math.Round(c.k * mm)) }
	return image.Rect(at(b.X), at(b.Y), max(at(b.right()), at(b.X)+1), max(at(b.bottom()), at(b.Y)+1))
}

func (f fill) paint(c *canvas) {
	colour := image.NewUniform(color.RGBA{f.colour.R, f.colour.G, f.colour.B, 255})
	draw.Draw(c.img, c.pixels(f.box), colour, image.Point{}, draw.Src)
}

// paint reduces a picture by box average in linear light, and enlarges it by its nearest
// pixels, as the mirror does.
func (p picture) paint(c *canvas) {
	to := c.pixels(p.box)
	src := p.img
	if size := src.Rect.Size(); to.Dx() < size.X || to.Dy() < size.Y {
		p := analysis.Pixels{Pix: src.Pix, Stride: src.Stride, Width: size.X, Height: size.Y}
		src = stills.Paint(p, "colour", min(to.Dx(), size.X), min(to.Dy(), size.Y), views.Look{})
	}
	in := to.Intersect(c.img.Rect)
	w, h := src.Rect.Dx(), src.Rect.Dy()
	for y := in.Min.Y; y < in.Max.Y; y++ {
		row := src.Pix[(y-to.Min.Y)*h/to.Dy()*src.Stride:]
		for x := in.Min.X; x < in.Max.X; x++ {
			copy(c.img.Pix[c.img.PixOffset(x, y):][:4], row[4*((x-to.Min.X)*w/to.Dx()):][:4])
		}
	}
}

func (r rule) paint(c *canvas) {
	line := ink.Line{Points: []ink.Point{r.from.Times(c.k), r.to.Times(c.k)}, Width: max(1, r.width*c.k)}
	if r.from.X == r.to.X || r.from.Y == r.to.Y { // on whole pixels, so that it is not blurred
		for i, p := range line.Points {
			line.Points[i] = ink.Pt(math.Floor(p.X)+0.5, math.Floor(p.Y)+0.5)
		}
		line.Width = max(1, math.Round(line.Width))
	}
	c.drawer.Draw(c.img, c.img.Rect, []ink.Mark{{Lines: []ink.Line{line}, Grey: r.grey}})
}

func (w words) paint(c *canvas) {
	text := ink.Text{Face: w.face, Words: w.text, At: w.at.Times(c.k), Size: w.size * c.k}
	c.drawer.Draw(c.img, c.img.Rect, []ink.Mark{{Text: text, Grey: w.grey}})
}
