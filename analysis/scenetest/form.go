package scenetest

// coat is how a form is painted.
type coat struct {
	light, shadow Colour
	soft          float64 // width of the terminator as a share of the form's size; 0 is a hard edge

	bright    *Colour // what the light rises to where it is strongest
	reflected *Colour // what the shadow rises to on its far side
	accent    *Colour // core-shadow accent
	band      float64 // its width as a share of the form's size
	half      *Colour // flat half-tone between light and shadow
	halfWide  float64 // its width as a share of the form's size
	straight  bool    // the shadow goes straight toward black

	strokes float64 // brush strokes: by how much they lighten and darken, share
}

// form is a thing in the picture with a light side and a shadow side.
type form struct {
	family  string // its local colour; forms of one local colour share it
	outline outline
	shade   shade
	coat    coat
	line    *pen   // around it
	why     string // not scored, because
}

// paint lays a form on the canvas as part number part.
func (c *canvas) paint(f form, part int) {
	size := f.outline.size()
	soft := max(f.coat.soft*size, 1.2)
	look := newLook(f.coat, soft, size)
	mask := f.outline.cover(c.bounds())
	for y := mask.Rect.Min.Y; y < mask.Rect.Max.Y; y++ {
		for x := mask.Rect.Min.X; x < mask.Rect.Max.X; x++ {
			if a := mask.AlphaAt(x, y).A; a > 0 {
				p := point{float64(x) + 0.5, float64(y) + 0.5}
				tone, is := look.at(p, f.shade(p))
				if is != unjudged {
					is += uint8(4 * part)
				}
				c.lay(x, y, tone, float64(a)/255, is)
			}
		}
	}
	if f.line != nil {
		c.draw(f.outline, *f.line, partLine+uint8(4*part))
	}
}

// look is a coat made ready for a form of a size in pixels.
type look struct {
	light, shadow, bright, reflected, accent, half paint
	soft, size, band, halfWide                     float64
	hard, hasBand                                  bool
	strokes                                        float64
}

func newLook(c coat, soft, size float64) look {
	or := func(p *Colour, otherwise Colour) paint {
		if p != nil {
			return p.paint()
		}
		return otherwise.paint()
	}
	return look{
		light: c.light.paint(), shadow: c.shadow.paint(),
		bright: or(c.bright, c.light), reflected: or(c.reflected, c.shadow), accent: or(c.accent, c.shadow),
		soft: soft, size: size, hard: soft < 3, band: c.band * size, hasBand: c.accent != nil, strokes: c.strokes,
		half: or(c.half, c.shadow), halfWide: c.halfWide * size,
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
	if l.hard && t > 0.004 && t < 0.996 {
		is = unjudged
	}
	if l.hasBand { // the band lies in the shadow, along its edge
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
