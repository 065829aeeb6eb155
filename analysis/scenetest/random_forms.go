package scenetest

import (
	"image"
	"math"
)

// shapes are what a chance scene is made of, with width over height.
var shapes = []struct {
	outline func(seed uint64) outline
	aspect  float64
	kind    int // how it is shaded
}{
	{func(uint64) outline { return disc() }, 1, round},
	{func(uint64) outline { return head() }, 0.8, round},
	{func(uint64) outline { return pot() }, 0.8, round},
	{func(uint64) outline { return jug() }, 0.6, upright},
	{func(uint64) outline { return bowl() }, 1.4, round},
	{func(uint64) outline { return apple() }, 1.05, round},
	{func(uint64) outline { return pear() }, 0.65, round},
	{func(uint64) outline { return lemon() }, 1.4, round},
	{func(uint64) outline { return leaf() }, 1.6, bent},
	{func(uint64) outline { return hat() }, 1.2, bent},
	{func(uint64) outline { return mushroom() }, 1.5, bent},
	{func(uint64) outline { return skirt() }, 1.2, cloth},
	{func(uint64) outline { return cloak() }, 0.7, cloth},
	{func(uint64) outline { return torso() }, 0.9, cloth},
	{func(uint64) outline { return sleeve() }, 0.8, bent},
	{func(uint64) outline { return boot() }, 0.9, bent},
	{func(uint64) outline { return tower() }, 0.6, upright},
	{func(uint64) outline { return house() }, 1.2, corner},
	{func(uint64) outline { return fish() }, 1.6, bent},
	{func(uint64) outline { return bell() }, 0.9, round},
	{func(s uint64) outline { return lump(s, 8, 0.25) }, 1.1, bent},
	{func(s uint64) outline { return lump(s, 13, 0.2) }, 1, round},
	{func(s uint64) outline { return rock(s, 8) }, 1.2, bent},
}

const (
	round = iota
	upright
	bent
	cloth
	corner
)

// things places the forms: one to nine, in cells of a grid that they may leave.
func (r *chance) things() {
	rng := r.rng
	n := 1 + rng.IntN(9)
	columns := int(math.Ceil(math.Sqrt(float64(n) * float64(r.easel.width) / float64(r.height))))
	columns = max(columns, 1)
	rows := (n + columns - 1) / columns
	cell := image.Pt(r.easel.width/columns, r.height/rows)
	locals := r.locals(n)
	r.thing0(locals, cell)
	for i, l := range locals {
		x := (float64(i%columns) + 0.5 + between(rng, -0.16, 0.16)) * float64(cell.X)
		y := (float64(i/columns) + 0.5 + between(rng, -0.12, 0.12)) * float64(cell.Y)
		r.thing(l, point{x, y}, cell)
	}
}

// locals makes as many local colours as fit, up to n.
func (r *chance) locals(n int) []local {
	var all []local
	for i := range n {
		l, ok := r.palette.local(i + 1)
		if !ok {
			break
		}
		r.closest = min(r.closest, l.light.Value()-l.shadow.Value())
		all = append(all, l)
	}
	return all
}

// thing0 lays a flat thing of an unlike hue behind the others, sometimes.
func (r *chance) thing0(locals []local, cell image.Point) {
	if !one(r.rng, 0.3) {
		return
	}
	c, ok := r.palette.unlike(locals)
	if !ok {
		return
	}
	x, y := between(r.rng, 0.2, 0.8)*float64(r.easel.width), between(r.rng, 0.2, 0.8)*float64(r.height)
	size := 0.3 * float64(min(cell.X, cell.Y))
	o := lump(r.rng.Uint64(), 9, 0.2).at(x, y, size, size, 0)
	r.flat(o, c.paint())
	if pen := r.pen(c); pen != nil {
		r.draw(o, *pen, unjudged)
	}
}

// pen picks the line around a form that is filled with a colour.
func (r *chance) pen(fill Colour) *pen {
	p := &pen{colour: hex("#141414"), width: r.width, vary: r.vary, gaps: r.gaps}
	switch r.lines {
	case 1:
		return p
	case 2:
		p.colour = tinted(fill, 3)
		return p
	}
	return nil
}

// thing paints a form of a local colour in a cell.
func (r *chance) thing(l local, at point, cell image.Point) {
	rng := r.rng
	shape := shapes[rng.IntN(len(shapes))]
	fill := between(rng, 0.44, 0.62)
	w, h := fill*float64(cell.X), fill*float64(cell.Y)
	if w > h*shape.aspect {
		w = h * shape.aspect
	} else {
		h = w / shape.aspect
	}
	tilt := between(rng, -12, 12)
	if shape.kind == corner {
		tilt = 0
	}
	o := shape.outline(rng.Uint64()).at(at.x, at.y, w, h, tilt)
	if r.casts {
		r.castShadow(at.x-0.4*r.light.x*w, at.y+0.95*h, 0.9*w, 0.16*h, r.dark, between(rng, 0.15, 0.5))
	}
	f := l.form(o, r.shade(o, shape.kind), 0)
	f.line = r.pen(l.light)
	r.dress(&f, l)
	r.add(f)
	if one(rng, 0.2) {
		r.spots(o, l)
	}
}

// shade picks how the terminator runs over a form.
func (r *chance) shade(o outline, kind int) shade {
	rng, size, m := r.rng, o.size(), o.middle()
	straight := plane(m, r.light, between(rng, -0.12, 0.12)*size, between(rng, 0, 0.04)*size, between(rng, 1500, 3000)/size)
	switch kind {
	case upright:
		side := toward(0)
		if r.light.x < 0 {
			side = toward(180)
		}
		return plane(m, side, between(rng, -0.1, 0.1)*size, 0, 0)
	case bent:
		return mean(follow(o, r.light, between(rng, 0.25, 0.4)*size), straight)
	case cloth:
		if !r.soft {
			return folds(straight, o, 2+rng.IntN(3), 0.05*size)
		}
		return straight
	case corner:
		b := o.bounds()
		return plane(point{float64(b.Min.X) + 0.6*float64(b.Dx()), m.y}, toward(180), 0, 0, 0)
	}
	return ballOf(o, r.light, between(rng, 0.1, 0.4))
}

// dress fills in what the painter's habits add to a coat.
func (r *chance) dress(f *form, l local) {
	rng := r.rng
	if r.soft {
		f.coat.soft = between(rng, 0.03, 0.33)
		f.coat.strokes = r.strokes
	}
	if r.glows {
		c := mixed(l.shadow.Value()+between(rng, 0.2, 0.6), l.shadow.Oklab().Hue()+between(rng, -15, 15), l.shadow.saturation())
		f.coat.reflected = &c
		b := mixed(min(l.light.Value()+between(rng, 0.2, 0.7), 9.7), l.light.Oklab().Hue(), l.light.saturation())
		f.coat.bright = &b
	}
	if r.accents && one(rng, 0.75) && l.light.Lab().Chroma() > 12 {
		r.accent(f, l)
	}
}

// accent lays a band along the edge, if a colour is found that stands out: as light as the
// shadow, seldom as light as the light or of a lightness of its own.
func (r *chance) accent(f *form, l local) {
	rng := r.rng
	base := l.shadow
	switch rng.IntN(7) {
	case 0:
		base = l.light
	case 1:
		base = mixed(l.shadow.Value()+0.6, l.shadow.Oklab().Hue(), l.shadow.saturation())
	}
	for range 30 {
		c := accentAt(base, between(rng, -34, 34), between(rng, 0.3, 0.9))
		if l.standsOut(*c, 2) {
			f.coat.accent, f.coat.band = c, between(rng, 0.04, 0.08)
			f.coat.soft = min(f.coat.soft, 0.06)
			return
		}
	}
}

// spots strews a pattern of tiny details on a form, or sets a highlight.
func (r *chance) spots(o outline, l local) {
	rng, size, m := r.rng, o.size(), o.middle()
	if one(rng, 0.4) {
		r.detail(disc().at(m.x+0.2*size*r.light.x, m.y+0.2*size*r.light.y, 0.035*size, 0.025*size, 20), hex("#fffdf5").paint())
		return
	}
	c := mixed(min(max(l.light.Value()+1.2, 1), 9.7), l.light.Oklab().Hue()+40, 0.12).paint()
	if one(rng, 0.5) {
		c = mixed(max(l.shadow.Value()-0.8, 0.5), l.light.Oklab().Hue()+150, 0.12).paint()
	}
	for range 12 + rng.IntN(14) {
		p := point{m.x + between(rng, -0.45, 0.45)*size, m.y + between(rng, -0.45, 0.45)*size}
		if s := 0.014 * size; o.inside(p) > 3*s {
			r.detail(disc().at(p.x, p.y, s, s, 0), c)
		}
	}
}
