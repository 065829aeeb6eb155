package scenetest

import (
	"image"
	"math"
)

// shape is what a chance scene is made of.
type shape struct {
	outline
	aspect float64 // width over height
	kind   int     // how it is shaded
}

// shapes are those to choose from; some of them differ from seed to seed.
func shapes(seed uint64) [23]shape {
	return [...]shape{
		{disc, 1, round}, {head, 0.8, round}, {pot, 0.8, round}, {jug, 0.6, upright}, {bowl, 1.4, round},
		{apple, 1.05, round}, {pear, 0.65, round}, {lemon, 1.4, round}, {leaf, 1.6, bent}, {hat, 1.2, bent},
		{mushroom, 1.5, bent}, {skirt, 1.2, cloth}, {cloak, 0.7, cloth}, {torso, 0.9, cloth}, {sleeve, 0.8, bent},
		{boot, 0.9, bent}, {tower, 0.6, upright}, {house, 1.2, corner}, {fish, 1.6, bent}, {bell, 0.9, round},
		{lump(seed, 8, 0.25), 1.1, bent}, {lump(seed, 13, 0.2), 1, round}, {rock(seed, 8), 1.2, bent},
	}
}

const (
	round = iota
	upright
	bent
	cloth
	corner
)

// things places the forms: one to nine.
func (r *chance) things() { r.grid(1 + r.rng.IntN(9)) }

// grid places up to n forms, in cells of a grid that they may leave.
func (r *chance) grid(n int) {
	rng := r.rng
	columns := int(math.Ceil(math.Sqrt(float64(n) * float64(r.width) / float64(r.height))))
	rows := (n + columns - 1) / columns
	cell := image.Pt(r.width/columns, r.height/rows)
	locals := r.locals(n)
	r.flatThing(locals, cell)
	for i, l := range locals {
		if r.lightOf != nil {
			r.light = r.lightOf(l)
		}
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

// flatThing lays a flat thing of an unlike hue behind the others, sometimes.
func (r *chance) flatThing(locals []local, cell image.Point) {
	if !perhaps(r.rng, 0.3) {
		return
	}
	c, ok := r.palette.unlike(locals)
	if !ok {
		return
	}
	x, y := between(r.rng, 0.2, 0.8)*float64(r.width), between(r.rng, 0.2, 0.8)*float64(r.height)
	size := 0.3 * float64(min(cell.X, cell.Y))
	o := lump(r.rng.Uint64(), 9, 0.2).at(x, y, size, size, 0)
	r.fill(o, c.paint(), ground)
	r.draw(o, r.pen(c), unjudged)
}

// pen picks the line around a form that is filled with a colour.
func (r *chance) pen(fill Colour) pen {
	p := pen{width: r.line, vary: r.vary, gaps: r.gaps}
	switch r.lines {
	case 0:
		return pen{}
	case 1:
		p.colour = hex("#141414")
	case 2:
		p.colour = ink(fill, 3)
	case 3:
		p.colour = r.ink
	}
	return p
}

// thing paints a form of a local colour in a cell.
func (r *chance) thing(l local, at point, cell image.Point) {
	rng := r.rng
	which, fill, tilt := rng.IntN(len(shapes(0))), between(rng, 0.44, 0.62), between(rng, -12, 12)
	shape := shapes(rng.Uint64())[which]
	w, h := fill*float64(cell.X), fill*float64(cell.Y)
	w, h = min(w, h*shape.aspect), min(h, w/shape.aspect)
	if shape.kind == corner {
		tilt = 0
	}
	o := shape.at(at.x, at.y, w, h, tilt)
	if r.casts {
		r.castShadow(at.x-0.4*r.light.x*w, at.y+0.95*h, 0.9*w, 0.16*h, r.dark, between(rng, 0.15, 0.5))
	}
	f := l.form(o, r.shading(o, shape.kind))
	f.line = r.pen(l.light)
	r.dress(&f, l)
	r.add(f)
	if perhaps(rng, 0.2) {
		r.spots(o, l)
	}
}

// shading picks how the terminator runs over a form.
func (r *chance) shading(o outline, kind int) shading {
	if r.sided != nil {
		if s := r.sided(o, kind); s != nil {
			return s
		}
	}
	rng, size := r.rng, o.size()
	straight := plane(between(rng, -0.12, 0.12)*size, between(rng, 0, 0.04)*size, between(rng, 1500, 3000)/size)
	switch kind {
	case upright:
		side := 0.0
		if r.light.x < 0 {
			side = 180
		}
		return from(side, plane(between(rng, -0.1, 0.1)*size, 0, 0))
	case bent:
		return mean(follow(between(rng, 0.25, 0.4)*size), straight)
	case cloth:
		if !r.soft {
			return folds(straight, 2+rng.IntN(3), 0.05*size)
		}
		return straight
	case corner:
		b := o.bounds()
		return edgeAt(float64(b.Min.X) + 0.6*float64(b.Dx()))
	}
	return ball(between(rng, 0.1, 0.4))
}

// dress fills in what the painter's habits add to a coat.
func (r *chance) dress(f *form, l local) {
	rng := r.rng
	if r.soft {
		f.coat.soft = between(rng, 0.03, 0.33)
		f.coat.strokes = r.strokes
	}
	if r.glows {
		f.coat.reflected = turned(l.shadow, -between(rng, 0.2, 0.6), between(rng, -15, 15), 0)
		f.coat.bright = mixed(min(l.light.Value()+between(rng, 0.2, 0.7), 9.7), l.light.Oklab().Hue(), l.light.saturation())
	}
	if r.accents && perhaps(rng, 0.75) && l.light.Lab().Chroma() > 12 {
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
		base = turned(l.shadow, -0.6, 0, 0)
	}
	for range 30 {
		c := turned(base, 0, between(rng, -34, 34), between(rng, 0.3, 0.9))
		if l.standsOut(c, 2) {
			f.coat.accent, f.coat.band = c, between(rng, 0.04, 0.08)
			f.coat.soft = min(f.coat.soft, 0.06)
			return
		}
	}
}

// spots strews a pattern of tiny details on a form, or sets a highlight.
func (r *chance) spots(o outline, l local) {
	rng, size, m := r.rng, o.size(), o.middle()
	if perhaps(rng, 0.4) {
		r.fill(disc.at(m.x+0.2*size*r.light.x, m.y+0.2*size*r.light.y, 0.035*size, 0.025*size, 20), hex("#fffdf5").paint(), unjudged)
		return
	}
	c := mixed(min(max(l.light.Value()+1.2, 1), 9.7), l.light.Oklab().Hue()+40, 0.12).paint()
	if perhaps(rng, 0.5) {
		c = mixed(max(l.shadow.Value()-0.8, 0.5), l.light.Oklab().Hue()+150, 0.12).paint()
	}
	for range 12 + rng.IntN(14) {
		p := point{m.x + between(rng, -0.45, 0.45)*size, m.y + between(rng, -0.45, 0.45)*size}
		if s := 0.014 * size; o.inside(p) > 3*s {
			r.fill(disc.at(p.x, p.y, s, s, 0), c, unjudged)
		}
	}
}
