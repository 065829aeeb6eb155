package scenetest

import "image"

// What a pixel is. The first are of no family; the others count from part*4.
const (
	unjudged uint8 = iota // lines of no family, soft outer edges, details: may be taken for anything
	ground                // the background, and flat forms: no family
	cast                  // a cast shadow on the ground: see castShadow
	alone                 // a flat form that is nobody's partner beyond doubt: of no family, not even with the ground
	firstPart

	partLight  = firstPart // of part 0: see labelOf
	partShadow = firstPart + 1
	partAccent = firstPart + 2
)

// labelOf returns what the pixels of a part's side are.
func labelOf(part int, side Side) uint8 { return firstPart + uint8(4*part) + uint8(side) }

// canvas is a picture while it is painted: encoded paint, and what each pixel is.
type canvas struct {
	width, height int
	pix           []paint
	label         []uint8
}

func newCanvas(width, height int) *canvas {
	c := &canvas{width: width, height: height, pix: make([]paint, width*height), label: make([]uint8, width*height)}
	for i := range c.label {
		c.label[i] = ground
	}
	return c
}

func (c *canvas) bounds() image.Rectangle { return image.Rect(0, 0, c.width, c.height) }

// ground lays a background.
func (c *canvas) ground(b backdrop) {
	at := b(float64(c.width), float64(c.height))
	for i := range c.pix {
		c.pix[i] = at(point{float64(i%c.width) + 0.5, float64(i/c.width) + 0.5})
	}
}

// lay blends paint over a pixel and says what the pixel is now.
func (c *canvas) lay(x, y int, p paint, cover float64, is uint8) {
	const all, none = 0.995, 0.02 // less than one code beside paint that differs by half the range
	i := y*c.width + x
	c.pix[i] = c.pix[i].to(p, cover)
	switch {
	case cover >= all:
		c.label[i] = is
	case cover > none:
		c.label[i] = unjudged
	}
}

// fill fills an outline with one paint; is says what the pixels inside are.
func (c *canvas) fill(o outline, p paint, is uint8) {
	mask := o.cover(c.bounds())
	for y := mask.Rect.Min.Y; y < mask.Rect.Max.Y; y++ {
		for x := mask.Rect.Min.X; x < mask.Rect.Max.X; x++ {
			if a := mask.AlphaAt(x, y).A; a > 0 {
				c.lay(x, y, p, float64(a)/255, is)
			}
		}
	}
}

// pen is how a line is drawn; one without width draws none.
type pen struct {
	colour Colour
	width  float64    // pixels
	vary   float64    // share by which the width swells and thins along the line
	gaps   float64    // share of the outline where the pen was lifted
	lifted [2]float64 // from where to where it was besides, in shares of the points of the outline
}

// isLifted reports whether the pen was lifted over one stretch, at a place along the outline.
func (p pen) isLifted(u float64) bool { return u >= p.lifted[0] && u < p.lifted[1] }

// draw runs a pen along an outline; is says what the drawn pixels are.
func (c *canvas) draw(o outline, p pen, is uint8) {
	if p.width <= 0 {
		return
	}
	box := o.bounds().Inset(-int(p.width) - 2).Intersect(c.bounds())
	cover := make([]float32, box.Dx()*box.Dy())
	for i := range o {
		u := float64(i) / float64(len(o))
		if p.gaps > 0 && mod1(u*5+0.3) < p.gaps { // five lifts of the pen
			continue
		}
		if p.isLifted(u) {
			continue
		}
		half := p.width / 2 * (1 + p.vary*wave(u*3))
		drawPiece(cover, box, o[i], o[(i+1)%len(o)], half)
	}
	ink := p.colour.paint()
	for i, a := range cover {
		if a > 0 {
			c.lay(box.Min.X+i%box.Dx(), box.Min.Y+i/box.Dx(), ink, float64(a), is)
		}
	}
}

// drawPiece raises the cover of the pixels along a straight piece.
func drawPiece(cover []float32, box image.Rectangle, a, b point, half float64) {
	reach := half + 1
	x0, x1 := int(min(a.x, b.x)-reach), int(max(a.x, b.x)+reach)+1
	y0, y1 := int(min(a.y, b.y)-reach), int(max(a.y, b.y)+reach)+1
	near := image.Rect(x0, y0, x1, y1).Intersect(box)
	for y := near.Min.Y; y < near.Max.Y; y++ {
		for x := near.Min.X; x < near.Max.X; x++ {
			d := toPiece(point{float64(x) + 0.5, float64(y) + 0.5}, a, b)
			if v := float32(min(half+0.5-d, 2*half, 1)); v > 0 {
				i := (y-box.Min.Y)*box.Dx() + x - box.Min.X
				cover[i] = max(cover[i], v)
			}
		}
	}
}
