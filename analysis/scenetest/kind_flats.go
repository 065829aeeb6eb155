package scenetest

import (
	"image"
	"math"
)

// star has five points; drop hangs.
var (
	star = func() (o outline) {
		for i := range 10 {
			sin, cos := math.Sincos(math.Pi * (float64(i)/5 - 0.5))
			r := 1 - 0.55*float64(i%2)
			o = append(o, point{r * cos, r * sin})
		}
		return o
	}()
	drop = smooth(outline{{0, -1}, {0, -1}, {0.35, -0.3}, {0.75, 0.35}, {0.5, 0.9}, {0, 1}, {-0.5, 0.9}, {-0.75, 0.35}, {-0.35, -0.3}})
)

// flatShape is the outline of a flat thing at a place.
func (r *chance) flatShape(x, y, size float64) outline {
	rng := r.rng
	o := one(rng, disc, box, star, drop, leaf, tower, lump(rng.Uint64(), 7, 0.3), rock(rng.Uint64(), 6))
	return o.at(x, y, size, size*between(rng, 0.7, 1.3), between(rng, -25, 25))
}

// flatsBeside are forms with hard shadows that flat things touch, lie behind or partly cover.
// A flat is a whole shape of its own, in a colour apart from all others: even one of a form's
// hue is no side of it, since the form has both of its own.
func (r *chance) flatsBeside() {
	rng := r.rng
	r.hard()
	r.backdrop()
	middles, wide, high := r.cells(2+rng.IntN(4), 0.12)
	cell := image.Pt(int(wide), int(high))
	size := min(wide, high)
	locals := r.locals(len(middles))
	r.likePair()
	for i, l := range locals {
		if perhaps(rng, 0.5) {
			r.beside(l, middles[i], size)
		}
		r.thing(l, middles[i], cell)
		for range 1 + rng.IntN(2) {
			r.beside(l, middles[i], size)
		}
	}
}

// beside lays a flat thing that touches a form's outline, of like hue half of the time.
func (r *chance) beside(l local, at point, size float64) {
	c, ok := r.flatColour(l, perhaps(r.rng, 0.5))
	if !ok {
		return
	}
	way := toward(between(r.rng, 0, 360))
	far := between(r.rng, 0.4, 0.55) * size
	r.lone(r.flatShape(at.x+far*way.x, at.y+far*way.y, between(r.rng, 0.12, 0.24)*size), c)
}

// flatColour mixes a colour for a flat thing beside a form, apart from all in the picture.
func (r *chance) flatColour(l local, like bool) (c Colour, ok bool) {
	rng, p := r.rng, &r.palette
	for range 60 {
		c = mixed(between(rng, 2.5, 9.3), between(rng, 0, 360), between(rng, 0.08, 0.28))
		if like {
			c = mixed(between(rng, 2, 9.5), l.light.Oklab().Hue()+between(rng, -18, 18), max(l.light.saturation(), 0.03)*between(rng, 0.8, 1.3))
		}
		if p.free(c) {
			p.used = append(p.used, c)
			return c, true
		}
	}
	return c, false
}

// likePair lays two whole flat shapes of one hue, a lighter and a darker one, that touch at
// their rims alone: two things, no family.
func (r *chance) likePair() {
	rng := r.rng
	c, ok := r.palette.flat()
	if !ok {
		return
	}
	light, dark := c, turned(c, between(rng, 1.4, 2.6), between(rng, -12, 12), between(rng, -0.1, 0.2))
	if !r.palette.free(dark) || dark.Value() < 0.6 {
		return
	}
	r.palette.used = append(r.palette.used, dark)
	first, second := between(rng, 0.07, 0.13)*r.least(), between(rng, 0.07, 0.13)*r.least()
	x, y := between(rng, 0.15, 0.6)*float64(r.width), between(rng, 0.15, 0.85)*float64(r.height)
	r.lone(disc.at(x, y, first, first, 0), light)
	r.lone(star.at(x+first+between(rng, 0.75, 0.98)*second, y, second, second, between(rng, -10, 10)), dark)
}

// flat mixes a colour of no family, apart from all in the picture.
func (p *palette) flat() (c Colour, ok bool) {
	for range 60 {
		c = mixed(between(p.rng, 3, 9.3), between(p.rng, 0, 360), between(p.rng, 0.02, 0.26))
		if p.free(c) {
			p.used = append(p.used, c)
			return c, true
		}
	}
	return c, false
}
