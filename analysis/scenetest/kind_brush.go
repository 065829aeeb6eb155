package scenetest

import "math"

// roughBrush paints ground and forms in visible strokes whose colour varies; along the
// terminator the strokes of either side end raggedly. A stroke belongs to the side whose
// paint it has.
func (r *chance) roughBrush() {
	rng := r.rng
	r.hard()
	r.casts = false
	p := &r.palette
	base := p.backdrop(one(rng, 8.5, 7, 5, 3, 1.8))
	slant, seed := between(rng, 20, 70), rng.IntN(1000)
	b, wide := brush{0.05 * r.least(), slant, seed}, between(rng, 0.03, 0.07)
	wash := base.paint()
	r.ground(everywhere(func(q point) paint { return wash.varied(b, q, wide) }))
	r.forms(1+rng.IntN(5), func(l local, o outline) form {
		f := l.form(o, one(rng, ball(0.2), plane(0, 0.02*o.size(), 4), mean(follow(0.4*o.size()), plane(0, 0, 0))))
		tones := l.light.Value() - l.shadow.Value()
		vary := min(between(rng, 0.03, 0.1), 0.3*tones/l.light.Value())
		f.coat.halfWide = 0.1
		f.coat.own = brushwork(l, vary, brush{between(rng, 0.05, 0.09) * o.size(), slant + between(rng, -40, 40), rng.IntN(1000)})
		return f
	})
}

// brush makes strokes of a width in pixels, in a direction in degrees.
type brush struct {
	wide, slant float64
	seed        int
}

// at returns which stroke covers a place, and that stroke's middle.
func (b brush) at(p point) (column, row int, middle point) {
	const longer = 4.5
	sin, cos := math.Sincos(b.slant * math.Pi / 180)
	long := longer * b.wide
	bend := 0.8 * b.wide * cloudAt(p.x, p.y, 2*long, 2, b.seed)
	u, v := p.x*cos+p.y*sin, p.y*cos-p.x*sin+bend
	y := math.Floor(v / b.wide)
	u += long * (0.12*latticeAt(int(8*v/b.wide), 1, b.seed) + 0.15*cloudAt(p.x, p.y, b.wide, 2, b.seed+7)) // hairs end unevenly
	row = int(y)
	shift := long * latticeAt(row, 0, b.seed)
	x := math.Floor((u + shift) / long)
	u, v = (x+0.5)*long-shift, (y+0.5)*b.wide-bend
	return int(x), row, point{u*cos - v*sin, u*sin + v*cos}
}

// varied is paint as a stroke at a place has it, each channel changed by about a share.
func (p paint) varied(b brush, at point, share float64) paint {
	column, row, _ := b.at(at)
	all := latticeAt(column, row, b.seed+1)
	hairs := 0.15 * latticeAt(row, int(at.y-at.x), b.seed+2)
	for k := range p {
		by := 1 + share*(0.75*all+0.55*latticeAt(column, row, b.seed+3+k)+hairs)
		p[k] = min(p[k]*float32(by), 1)
	}
	return p
}

// brushwork paints both sides in strokes.
func brushwork(l local, vary float64, b brush) manner {
	light, shadow := l.light.paint(), l.shadow.paint()
	return func(at shade, _ float64) func(p point) (paint, uint8) {
		return func(p point) (paint, uint8) {
			_, _, middle := b.at(p)
			if 0.7*at(middle)+0.3*at(p) > 0 {
				return light.varied(b, p, vary), partLight
			}
			return shadow.varied(b, p, vary), partShadow
		}
	}
}

// key is a night or a high-key picture: all of it dark or all of it pale, and light and
// shadow little apart.
func (r *chance) key() {
	rng, p := r.rng, &r.palette
	night := perhaps(rng, 0.5)
	r.accents, r.glows = false, false
	p.mix = func(p *palette, name string) local {
		light := mixed(between(rng, 8.6, 9.7), between(rng, 0, 360), between(rng, 0, 0.09))
		tones := between(rng, 0.75, 1.3)
		if night {
			light = mixed(between(rng, 1.8, 4.2), between(rng, 0, 360), between(rng, 0, 0.3))
			tones = between(rng, 0.8, 1.7)
		}
		return ruled(name, light, turned(light, tones, between(rng, -30, 30), between(rng, -0.3, 0.7)))
	}
	base := p.backdrop(between(rng, 8.3, 9.7))
	if night {
		base = p.backdrop(between(rng, 0.4, 1.8))
	}
	r.dark = turned(base, min(0.4, base.Value()/2), 0, 0)
	p.used = append(p.used, r.dark)
	r.ground(one(rng, plain(base), mottled(base, 0.04, rng.IntN(1000))))
	r.grid(1 + rng.IntN(5))
	r.closest /= 2 // little grain: it would lift the darks
}
