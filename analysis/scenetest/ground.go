package scenetest

import "math"

// A background is a function of the place.

func plain(c Colour) func(point) paint {
	p := c.paint()
	return func(point) paint { return p }
}

// fade runs from one colour to another, top to bottom for 270 degrees.
func (e *easel) fade(from, to Colour, degrees float64) func(point) paint {
	d, a, b := toward(degrees), from.paint(), to.paint()
	w, h := float64(e.width), float64(e.height)
	span := math.Abs(d.x)*w + math.Abs(d.y)*h
	return func(p point) paint {
		return a.to(b, min(max(((p.x-w/2)*d.x+(p.y-h/2)*d.y)/span+0.5, 0), 1))
	}
}

// glow fades from the middle to the corners.
func (e *easel) glow(middle, rim Colour) func(point) paint {
	a, b := middle.paint(), rim.paint()
	w, h := float64(e.width), float64(e.height)
	return func(p point) paint { return a.to(b, min(math.Hypot((p.x-w/2)/w, (p.y-h/2)/h)*1.3, 1)) }
}

// mottled is a colour in uneven wash: amount is a share of its codes.
func (e *easel) mottled(c Colour, amount float64, seed int) func(point) paint {
	p, scale := c.paint(), float64(min(e.width, e.height))/5
	return func(q point) paint { return p.times(1 + amount*cloudAt(q.x, q.y, scale, 4, seed)) }
}

// floor is a wall above a floor that meet at a share of the height.
func (e *easel) floor(wall, floor Colour, at float64) func(point) paint {
	a, b, y := wall.paint(), floor.paint(), math.Round(at*float64(e.height))
	return func(p point) paint {
		if p.y < y {
			return a
		}
		return b
	}
}

// castShadow darkens the ground below a form: an ellipse with a soft rim. The ground in
// light and in shadow is a pair that a painter may or may not call a family, so that
// what lies there isn't judged.
func (e *easel) castShadow(x, y, rx, ry float64, c Colour, soft float64) {
	p := c.paint()
	box := disc().at(x, y, rx*(1+soft), ry*(1+soft), 0).bounds().Intersect(e.bounds())
	for py := box.Min.Y; py < box.Max.Y; py++ {
		for px := box.Min.X; px < box.Max.X; px++ {
			r := math.Hypot((float64(px)+0.5-x)/rx, (float64(py)+0.5-y)/ry)
			a := 1 - ease(1-soft, 1+soft+1e-6, r)
			if a <= 0 {
				continue
			}
			i := py*e.width + px
			e.pix[i] = e.pix[i].to(p, a)
			if e.label[i] == ground && a > 0.02 {
				e.label[i] = cast
			}
		}
	}
}
