package scenetest

// coat is how a form is painted.
type coat struct {
	light, shadow     Colour
	soft              float64 // width of the terminator as a share of the form's size; 0 is a hard edge
	bright, reflected Colour  // what the light rises to where it is strongest, the shadow on its far side
	accent            Colour  // core-shadow accent
	band              float64 // its width as a share of the form's size; 0 is none
	half              Colour  // flat half-tone between light and shadow
	halfWide          float64 // its width as a share of the form's size; 0 is none
	straight          bool    // the shadow goes straight toward black
	strokes           float64 // brush strokes: by how much they lighten and darken, share
	own               manner  // paints instead of all this; nil for most
}

// form is a thing in the picture with a light side and a shadow side.
type form struct {
	family  string // its local colour; forms of one local colour share it
	outline outline
	shading shading
	coat    coat
	line    pen // around it
}

// manner is a way of its own to paint a form whose places are at so far on the lit side:
// it says what paint lies at a place, and what that is, of part 0.
type manner func(at shade, size float64) func(p point) (paint, uint8)

// paint lays a form in a light on the canvas as part number part.
func (c *canvas) paint(f form, light point, part int) {
	size := f.outline.size()
	look, at := newLook(f.coat, size), f.shading(f.outline, light)
	toneAt := func(p point) (paint, uint8) { return look.at(p, at(p)) }
	if f.coat.own != nil {
		toneAt = f.coat.own(at, size)
	}
	mask := f.outline.cover(c.bounds())
	for y := mask.Rect.Min.Y; y < mask.Rect.Max.Y; y++ {
		for x := mask.Rect.Min.X; x < mask.Rect.Max.X; x++ {
			if a := mask.AlphaAt(x, y).A; a > 0 {
				p := point{float64(x) + 0.5, float64(y) + 0.5}
				tone, is := toneAt(p)
				if is != unjudged {
					is += uint8(4 * part)
				}
				c.lay(x, y, tone, float64(a)/255, is)
			}
		}
	}
	c.draw(f.outline, f.line, labelOf(part, Line))
}

// look is a coat made ready for a form of a size in pixels.
type look struct {
	light, shadow, bright, reflected, accent, half paint
	soft, size, band, halfWide, strokes            float64
}

func newLook(c coat, size float64) look {
	return look{
		light: c.light.paint(), shadow: c.shadow.paint(), bright: c.bright.paint(), reflected: c.reflected.paint(),
		accent: c.accent.paint(), half: c.half.paint(),
		soft: max(c.soft*size, 1.2), size: size, band: c.band * size, halfWide: c.halfWide * size, strokes: c.strokes,
	}
}

// at returns the paint at a place s pixels on the lit side, and what it is, of part 0.
func (l *look) at(p point, s float64) (paint, uint8) {
	if l.halfWide > 0 {
		return l.atHalf(s)
	}
	lit := l.light.to(l.bright, ease(l.soft/2, l.size/2, s))
	dim := l.shadow.to(l.reflected, ease(0.12, 0.4, -s/l.size))
	t := ease(-l.soft/2, l.soft/2, s)
	tone, is := dim.to(lit, t), partShadow
	if t >= 0.5 {
		is = partLight
	}
	if least := l.run(); t > least && t < 1-least {
		is = unjudged
	}
	if l.band > 0 { // it lies in the shadow, along its edge
		edge := max(l.soft/2, 1.2)
		a := ease(-l.band-edge/2, -l.band+edge/2, s) * (1 - ease(-edge/2, edge/2, s))
		tone = tone.to(l.accent, a)
		switch {
		case a > 0.9:
			is = partAccent
		case a > 0.02:
			is = unjudged
		}
	}
	if l.strokes > 0 {
		tone = tone.times(1 + l.strokes*strokeAt(p, l.size))
	}
	return tone, is
}

// run returns from which part of the way from shadow to light on paint is of neither: a side is
// told by its plateau, not by the run between the two.
func (l *look) run() float64 {
	if l.soft < 3 { // a hard edge
		return 0.004
	}
	return 0.15
}

// atHalf is the same of a form with a half-tone, which nobody judges.
func (l *look) atHalf(s float64) (paint, uint8) {
	edge := l.halfWide / 2
	dim, lit := ease(-edge-l.soft/2, -edge+l.soft/2, s), ease(edge-l.soft/2, edge+l.soft/2, s)
	tone := l.shadow.to(l.half, dim).to(l.light, lit)
	switch {
	case dim < 0.004:
		return tone, partShadow
	case lit > 0.996:
		return tone, partLight
	}
	return tone, unjudged
}
