package scenetest

import (
	"image"
	"math"
)

// fullBleed has no figure on a ground: the picture is full of surfaces that reach its frame.
func (r *chance) fullBleed() {
	r.accents, r.casts = false, false
	r.line = min(r.line, 4)
	if perhaps(r.rng, 0.5) {
		r.interior()
	} else {
		r.landscape()
	}
}

// surface paints a large form of the next local colour, or a flat one.
func (r *chance) surface(o outline, s shading, lit bool, own ...habit) {
	if lit {
		if l, ok := r.palette.local(len(r.scene.Families) + 1); ok {
			r.closest = min(r.closest, l.light.Value()-l.shadow.Value())
			f := l.form(o, s)
			for _, h := range own {
				h(&f)
			}
			r.add(f)
			return
		}
	}
	if c, ok := r.palette.flat(); ok {
		r.lone(o, c)
	}
}

// band is the whole picture between two heights, and beyond its sides.
func (r *chance) band(top, bottom float64) outline {
	const over = 30
	w := float64(r.width)
	return outline{{-over, top}, {w + over, top}, {w + over, bottom}, {-over, bottom}}
}

// patch is lit where an outline is: the sun between clouds.
func patch(lit outline) shading {
	return func(outline, point) shade { return follow(0)(lit, point{}) }
}

// panes is lit where the sun falls through a window of four panes, with the shadow of their
// bars between: a plain patch might be a thing that hangs there.
func panes(q outline) shading {
	const low, bar = 0.46, 0.54
	at := func(u, v float64) point {
		top := point{q[0].x + u*(q[1].x-q[0].x), q[0].y + u*(q[1].y-q[0].y)}
		foot := point{q[3].x + u*(q[2].x-q[3].x), q[3].y + u*(q[2].y-q[3].y)}
		return point{top.x + v*(foot.x-top.x), top.y + v*(foot.y-top.y)}
	}
	var all []outline
	for _, v := range [][2]float64{{0, low}, {bar, 1}} {
		for _, u := range [][2]float64{{0, low}, {bar, 1}} {
			all = append(all, outline{at(u[0], v[0]), at(u[1], v[0]), at(u[1], v[1]), at(u[0], v[1])})
		}
	}
	return func(outline, point) shade {
		return func(p point) float64 {
			s := math.Inf(-1)
			for _, o := range all {
				s = max(s, o.inside(p))
			}
			return s
		}
	}
}

// slant is a straight border between light and shadow through a place, the light on the
// side that it comes from.
func (r *chance) slant(x, y float64) shading {
	return from(one(r.rng, between(r.rng, 100, 170), between(r.rng, 10, 80)), planeAt(point{x, y}, 0, 0, 0))
}

// interior is a wall, a floor or table, perhaps a window or doorway, and large things.
func (r *chance) interior() {
	rng, w, h := r.rng, float64(r.width), float64(r.height)
	horizon := between(rng, 0.5, 0.75) * h
	edge := soft(between(rng, 0, 0.02))
	walls, floors := perhaps(rng, 0.7), perhaps(rng, 0.6)
	wall := r.slant(between(rng, 0.3, 0.7)*w, 0.5*horizon)
	if perhaps(rng, 0.5) {
		x := between(rng, 0.1, 0.45) * w
		wall = panes(outline{{x, 0.15 * horizon}, {x + 0.4*w, 0.05 * horizon}, {x + 0.45*w, 0.75 * horizon}, {x + 0.05*w, 0.85 * horizon}})
	}
	r.surface(r.band(-30, horizon), wall, walls, edge)
	x := between(rng, 0.1, 0.5) * w
	floor := panes(outline{{x, horizon + 0.08*h}, {x + 0.35*w, horizon + 0.08*h}, {x + 0.55*w, h + 40}, {x - 0.05*w, h + 40}})
	r.surface(r.band(horizon, h+30), floor, floors, edge)
	if perhaps(rng, 0.5) {
		r.opening(between(rng, 0.15, 0.8)*w, horizon)
	}
	r.large(horizon)
}

// opening is a window or a doorway in the wall: a flat frame with flat panes.
func (r *chance) opening(x, horizon float64) {
	rng := r.rng
	wood, ok := r.palette.flat()
	glass, also := r.palette.flat()
	if !ok || !also {
		return
	}
	wide, top, bottom := 0.22*horizon, 0.2*horizon, 0.62*horizon
	if perhaps(rng, 0.4) { // a doorway
		bottom = horizon
	}
	middle, high := (top+bottom)/2, (bottom-top)/2
	r.lone(box.at(x, middle, wide, high, 0), wood)
	bar := 0.12 * wide
	half := (wide - 2*bar) / 2
	for k := range 2 {
		at := x + (2*float64(k)-1)*(half+bar/2)
		r.lone(box.at(at, middle, half-bar/2, high-bar, 0), glass)
	}
}

// large are one to three things that stand on the floor and may leave the frame.
func (r *chance) large(horizon float64) {
	rng, w, h := r.rng, float64(r.width), float64(r.height)
	n := 1 + rng.IntN(3)
	for i, l := range r.locals(n) {
		l.name = "thing " + l.name
		x := w * (float64(i) + between(rng, 0, 1)) / float64(n)
		size := between(rng, 0.55, 0.95) * h
		r.thing(l, point{x, between(rng, horizon, 0.9*h)}, image.Pt(int(size), int(size)))
	}
}

// landscape is a sky, flat hills far off, lit hills and a field near by, and a thing or two.
func (r *chance) landscape() {
	rng, w, h := r.rng, float64(r.width), float64(r.height)
	sky := mixed(between(rng, 7, 9.3), between(rng, 200, 290), between(rng, 0.02, 0.1))
	r.palette.used = append(r.palette.used, sky)
	r.ground(fade(sky, r.palette.near(sky, between(rng, -0.8, 0.5)), 270))
	horizon := between(rng, 0.3, 0.5) * h
	for i := range rng.IntN(3) {
		if c, ok := r.palette.flat(); ok {
			r.lone(r.ridge(horizon+0.06*float64(i)*h, 0.12*h), c)
		}
	}
	for i := range 1 + rng.IntN(3) {
		y := horizon + (0.1+0.22*float64(i))*h
		o := r.ridge(y, between(rng, 0.02, 0.12)*h)
		x := between(rng, 0.2, 0.8) * w
		// No straight border here: that might be the border of two fields.
		s := patch(lump(rng.Uint64(), 9, 0.35).at(x, y+0.15*h, between(rng, 0.3, 0.45)*w, between(rng, 0.12, 0.2)*h, between(rng, -8, 8)))
		r.surface(o, s, perhaps(rng, 0.85), soft(between(rng, 0, 0.02)))
	}
	if perhaps(rng, 0.8) || len(r.scene.Families) == 0 {
		r.large(horizon + 0.25*h)
	}
}

// ridge is the ground from a wavy height down to beyond the frame.
func (r *chance) ridge(y, rise float64) outline {
	w, h := float64(r.width), float64(r.height)
	const pieces, over = 40, 30.0
	phase, waves := between(r.rng, 0, 1), between(r.rng, 0.7, 2)
	o := outline{{w + over, h + over}, {-over, h + over}}
	for i := range pieces + 1 {
		u := float64(i) / pieces
		o = append(o, point{-over + u*(w+2*over), y - rise*(math.Abs(wave(u*waves/2+phase))*0.8+0.2*wave(u*waves*2.3))})
	}
	return o
}
