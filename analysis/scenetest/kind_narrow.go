package scenetest

import "math"

// narrowShadows have a shadow, or a light along the rim, that is 1 to 3 % of the picture's
// height wide: pleats, fringes, straps, petals, forms against the light. Each is a side of
// its own; nothing lies between two sides, so that it is no accent.
func (r *chance) narrowShadows() {
	rng := r.rng
	lined := perhaps(rng, 0.4)
	r.hard()
	if r.crisp = true; lined {
		r.lines, r.line = 1+rng.IntN(2), min(r.line, 0.004*r.least())
	}
	r.backdrop()
	locals := r.locals(1 + rng.IntN(3))
	middles, wide, high := r.cells(len(locals), 0.04)
	for i, l := range locals {
		size := 0.46 * min(wide, high)
		depth := max(7, between(rng, 0.012, 0.03)*float64(r.height))
		one(rng, r.pleated, r.fringe, r.straps, r.petals, r.against)(l, middles[i], size, depth)
	}
}

// slim paints a form with a line, if the picture has them.
func (r *chance) slim(l local, o outline, s shading) {
	f := l.form(o, s)
	f.line = r.pen(l.light)
	r.add(f)
}

// pleated is cloth in folds that spread downward.
func (r *chance) pleated(l local, at point, size, depth float64) {
	o := one(r.rng, skirt, cloak, box).at(at.x, at.y, size, size, 0)
	folds := math.Floor(2 * size / (depth * between(r.rng, 4.5, 7)))
	lean := between(r.rng, -0.1, 0.1)
	r.slim(l, o, func(o outline, _ point) shade {
		b := o.bounds()
		return func(p point) float64 {
			down := (p.y - float64(b.Min.Y)) / float64(b.Dy())
			spacing := float64(b.Dx()) / folds * (0.6 + 0.4*down)
			u := mod1((p.x-at.x)/spacing + lean*wave(down*0.6) + 0.5)
			return math.Abs(u-0.5)*spacing - depth*(0.1+0.55*down) // wedges, or they were stripes
		}
	})
}

// fringe is a row of hanging strips, each with its shadow along one side.
func (r *chance) fringe(l local, at point, size, depth float64) {
	n := min(14, max(4, int(2*size/(3.2*depth))))
	half := size / float64(n)
	for i := range n {
		x, tilt := at.x-size+half*(2*float64(i)+1), between(r.rng, -3, 3)
		o := box.at(x, at.y+between(r.rng, 0, 0.1)*size, 0.94*half, size, tilt)
		r.slim(l, o, facing(r.across(90+tilt), planeAt(point{x, at.y}, depth-half, 0, 0)))
	}
}

// straps are bands that cross each other.
func (r *chance) straps(l local, at point, size, depth float64) {
	tilt := between(r.rng, -25, 25)
	for i := range 3 {
		degrees := tilt + 60*float64(i%2)
		half := depth * between(r.rng, 1.7, 2.6)
		c := point{at.x + between(r.rng, -0.3, 0.3)*size, at.y + (float64(i)-1)*0.55*size}
		o := box.at(c.x, c.y, 1.1*size, half, degrees)
		r.slim(l, o, facing(r.across(degrees), planeAt(c, depth-half, 0, 0)))
	}
}

// petals lie around a flat middle.
func (r *chance) petals(l local, at point, size, depth float64) {
	n := 5 + r.rng.IntN(4)
	for i := range n {
		degrees := 360*float64(i)/float64(n) + between(r.rng, -5, 5)
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		o := leaf.at(at.x+0.6*size*cos, at.y+0.6*size*sin, 0.5*size, 0.3*size, degrees)
		r.slim(l, o, follow(1.3*depth))
	}
	if c, ok := r.palette.flat(); ok {
		r.lone(disc.at(at.x, at.y, 0.2*size, 0.2*size, 0), c)
	}
}

// against is a form against the light: all shadow but for its rim; or all light but for it.
func (r *chance) against(l local, at point, size, depth float64) {
	shape := one(r.rng, head, pot, pear, torso, apple, rock(r.rng.Uint64(), 9))
	s := follow(1.5 * depth)
	if perhaps(r.rng, 0.7) {
		s = func(o outline, light point) shade {
			dark := follow(1.5*depth)(o, point{-light.x, -light.y})
			return func(p point) float64 { return -dark(p) }
		}
	}
	r.slim(l, shape.at(at.x, at.y, size, size, between(r.rng, -10, 10)), s)
}
