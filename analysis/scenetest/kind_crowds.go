package scenetest

import "math"

// crowds are 12 to 60 small forms of one to three local colours, each with its own light and
// shadow: leaves, berries, stones, scales, windows.
func (r *chance) crowds() {
	rng := r.rng
	r.casts, r.crisp, r.accents = false, true, false
	r.line = min(r.line, 0.004*r.least())
	r.backdrop()
	locals := r.locals(1 + rng.IntN(3))
	crowd := one(rng, r.leaf, r.berry, r.stone, r.window, nil)
	if crowd == nil {
		r.scales(locals)
		return
	}
	middles, wide, high := r.cells(12+rng.IntN(49), 0.2)
	size := between(rng, 0.36, 0.5) * min(wide, high)
	for i, at := range middles {
		l := locals[i%len(locals)]
		if perhaps(rng, 0.5) {
			l = one(rng, locals...)
		}
		f := crowd(l, at, size*between(rng, 0.85, 1.15))
		f.line = r.pen(l.light)
		if r.soft {
			f.coat.soft = 0.1
		}
		r.add(f)
	}
}

// leaf has its shadow on one side of the midrib.
func (r *chance) leaf(l local, at point, size float64) form {
	tilt := between(r.rng, 0, 360)
	return l.form(leaf.at(at.x, at.y, 1.1*size, 0.65*size, tilt), facing(r.across(tilt), planeAt(at, 0, 0, 0)))
}

// across is the direction across an axis that is turned by degrees, on the light's side.
func (r *chance) across(degrees float64) point {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	if n := (point{-sin, cos}); n.x*r.light.x+n.y*r.light.y >= 0 {
		return n
	}
	return point{sin, -cos}
}

func (r *chance) berry(l local, at point, size float64) form {
	return l.form(disc.at(at.x, at.y, size, size*between(r.rng, 0.9, 1.05), 0), ball(between(r.rng, 0.1, 0.3)))
}

func (r *chance) stone(l local, at point, size float64) form {
	o := rock(r.rng.Uint64(), 8).at(at.x, at.y, 1.15*size, 0.9*size, between(r.rng, -20, 20))
	return l.form(o, mean(follow(0.5*size), plane(0, 0, 0)))
}

// window is a recess: the shadow of its reveal lies on the side that the light comes from.
func (r *chance) window(l local, at point, size float64) form {
	recess := func(o outline, light point) shade {
		return follow(0.5*size)(o, point{-light.x, -light.y})
	}
	return l.form(box.at(at.x, at.y, 0.75*size, size, 0), recess)
}

// scales are rows of discs that overlap, each shaded by the row above.
func (r *chance) scales(locals []local) {
	rng := r.rng
	columns := 5 + rng.IntN(3)
	radius := float64(r.width) / float64(2*columns-1)
	rows := min(60/columns, int(float64(r.height)/radius)+1)
	own := 0.0
	if r.soft {
		own = 0.08
	}
	for row := rows - 1; row >= 0; row-- { // each row lies under the one above
		for k := range columns {
			l := locals[(row/2)%len(locals)]
			x := (2*float64(k) + float64(row%2)) * radius
			f := l.form(disc.at(x, float64(row)*radius, 1.02*radius, 1.1*radius, 0), from(-70, plane(0.1*radius, 0, 0)))
			f.coat.soft, f.line = own, r.pen(l.light)
			r.add(f)
		}
	}
}
