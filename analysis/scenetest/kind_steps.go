package scenetest

// steps has forms in four to six flat steps of one hue. The first and the last are by far
// the largest and are what a painter would pick: they are the sides. The steps between may be
// taken for a part of either and count for nothing. A third of the pictures look like traced
// photographs: the steps are ragged, and the ground has steps of its own.
func (r *chance) steps() {
	rng := r.rng
	traced := perhaps(rng, 0.35)
	r.hard()
	r.casts = false
	r.backdrop()
	ragged := 0.0
	if traced {
		ragged = between(rng, 0.04, 0.09)
		r.ground(r.stepped())
	}
	r.forms(2+rng.IntN(4), func(l local, o outline) form {
		f := l.form(o, one(rng, ball(0.2), follow(0.5*o.size()), plane(0, 0.02*o.size(), 4)))
		count, wide := 2+rng.IntN(3), between(rng, 0.1, 0.22)
		f.coat.halfWide = 2 * wide // at a slant, and ragged
		f.coat.own = stepwise(l, count, wide, ragged, rng.IntN(1000))
		return f
	})
}

// forms places forms of up to n local colours.
func (r *chance) forms(n int, paint func(l local, o outline) form) {
	middles, wide, high := r.cells(n, 0.1)
	for i, l := range r.locals(n) {
		shape := shapes(r.rng.Uint64())[r.rng.IntN(len(shapes(0)))]
		w, h := 0.46*wide, 0.46*high
		w, h = min(w, h*shape.aspect), min(h, w/shape.aspect)
		r.add(paint(l, shape.at(middles[i].x, middles[i].y, w, h, between(r.rng, -12, 12))))
	}
}

// stepwise paints so many flat steps between the sides, that all in all are wide, as a share
// of the form's size; ragged shifts their borders by such a share.
func stepwise(l local, inner int, wide, ragged float64, seed int) manner {
	light, shadow := l.light.paint(), l.shadow.paint()
	return func(at shade, size float64) func(p point) (paint, uint8) {
		const soft = 0.7 // pixels
		return func(p point) (paint, uint8) {
			s, t := at(p), 0.0
			if ragged > 0 {
				s += ragged * size * cloudAt(p.x, p.y, size/4, 3, seed)
			}
			for k := range inner + 1 {
				border := wide * size * (float64(k)/float64(inner) - 0.5)
				t += ease(border-soft, border+soft, s) / float64(inner+1)
			}
			return shadow.to(light, t), sideOf(t, 0.004)
		}
	}
}

// sideOf is the side of a place that is so near to the light, 0 to 1, if it is so near to an end.
func sideOf(t, near float64) uint8 {
	switch {
	case t >= 1-near:
		return partLight
	case t <= near:
		return partShadow
	}
	return unjudged
}

// stepped is a ground in three flat steps, near to each other.
func (r *chance) stepped() backdrop {
	base := r.palette.used[0]
	far, seed := r.palette.near(base, between(r.rng, -0.9, 0.9)), r.rng.IntN(1000)
	a, b := base.paint(), far.paint()
	return func(w, h float64) func(point) paint {
		return func(p point) paint {
			c := cloudAt(p.x, p.y, min(w, h)/2.5, 4, seed)
			return a.to(b, (ease(-0.12, -0.115, c)+ease(0.12, 0.125, c))/2)
		}
	}
}

// gradients run over the whole form, straight or round, with a plateau at either end: those
// are the sides, and the run between them counts for nothing.
func (r *chance) gradients() {
	rng := r.rng
	r.hard()
	r.casts = false
	r.backdrop()
	r.forms(1+rng.IntN(4), func(l local, o outline) form {
		f := l.form(o, one(rng, plane(0, 0, 0), glowing(0.3, 0.36), glowing(0.2, 0.33)))
		run := between(rng, 0.22, 0.4)
		f.coat.halfWide = run
		f.coat.own = gradual(l, run)
		return f
	})
}

// gradual runs evenly from the shadow to the light over a share of the form's size.
func gradual(l local, run float64) manner {
	light, shadow := l.light.paint(), l.shadow.paint()
	return func(at shade, size float64) func(p point) (paint, uint8) {
		return func(p point) (paint, uint8) {
			t := min(max(at(p)/(run*size)+0.5, 0), 1)
			return shadow.to(light, t), sideOf(t, 0.04)
		}
	}
}

// glowing is lit around a place that lies toward the light: shares of the form's size.
func glowing(toward, radius float64) shading {
	return func(o outline, light point) shade {
		m, size := o.middle(), o.size()
		c := point{m.x + toward*size*light.x, m.y + toward*size*light.y}
		return func(p point) float64 { return radius*size - toPiece(p, c, c) }
	}
}
