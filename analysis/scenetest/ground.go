package scenetest

import "math"

// backdrop is what lies behind the forms of a picture of a size: a function of the place.
type backdrop func(w, h float64) func(p point) paint

// everywhere is a backdrop that doesn't depend on the picture's size.
func everywhere(at func(p point) paint) backdrop {
	return func(_, _ float64) func(point) paint { return at }
}

func plain(c Colour) backdrop {
	p := c.paint()
	return everywhere(func(point) paint { return p })
}

// fade runs from one colour to another, top to bottom for 270 degrees.
func fade(from, to Colour, degrees float64) backdrop {
	d, a, b := toward(degrees), from.paint(), to.paint()
	return func(w, h float64) func(point) paint {
		span := math.Abs(d.x)*w + math.Abs(d.y)*h
		return func(p point) paint {
			return a.to(b, min(max(((p.x-w/2)*d.x+(p.y-h/2)*d.y)/span+0.5, 0), 1))
		}
	}
}

// glow fades from the middle to the corners.
func glow(middle, rim Colour) backdrop {
	a, b := middle.paint(), rim.paint()
	return func(w, h float64) func(point) paint {
		return func(p point) paint { return a.to(b, min(math.Hypot((p.x-w/2)/w, (p.y-h/2)/h)*1.3, 1)) }
	}
}

// mottled is a colour in uneven wash: amount is a share of its codes.
func mottled(c Colour, amount float64, seed int) backdrop {
	p := c.paint()
	return func(w, h float64) func(point) paint {
		scale := min(w, h) / 5
		return func(q point) paint { return p.times(1 + amount*cloudAt(q.x, q.y, scale, 4, seed)) }
	}
}

// either is one colour where a place is so, another elsewhere.
func either(is func(p point) bool, there, elsewhere Colour) backdrop {
	a, b := there.paint(), elsewhere.paint()
	return everywhere(func(p point) paint {
		if is(p) {
			return a
		}
		return b
	})
}

// castShadow darkens the ground below a form: an ellipse with a soft rim. The ground in
// light and in shadow is a pair that a painter may or may not call a family, so that
// what lies there isn't judged.
func (e *easel) castShadow(x, y, rx, ry float64, c Colour, soft float64) {
	p := c.paint()
	box := disc.at(x, y, rx*(1+soft), ry*(1+soft), 0).bounds().Intersect(e.bounds())
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
