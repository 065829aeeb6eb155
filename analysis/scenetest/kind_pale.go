package scenetest

// paleShadows are whites, creams and skins with blue and violet shadows, and cool whites with
// warm ones: as an artist paints a white thing under a blue sky, or by a fire.
func (r *chance) paleShadows() {
	rng := r.rng
	r.accents = false
	r.palette.mix = (*palette).pale
	base := mixed(between(rng, 3, 8), between(rng, 0, 360), between(rng, 0.02, 0.16))
	r.spread(base)
	r.grid(1 + rng.IntN(4))
}

// pale mixes a pale local colour.
func (p *palette) pale(name string) local {
	rng := p.rng
	v, tones := between(rng, 8.9, 9.75), between(rng, 1, 2.6)
	tint := func(value, from, to, least, most float64) Colour {
		return mixed(value, between(rng, from, to), between(rng, least, most))
	}
	switch rng.IntN(4) {
	case 0: // white, a blue or violet shadow
		return ruled(name, tint(v, 60, 110, 0, 0.015), tint(v-tones, 245, 310, 0.02, 0.07))
	case 1: // cream and yellow, violet
		return ruled(name, tint(v, 80, 105, 0.04, 0.11), tint(v-tones, 280, 325, 0.015, 0.06))
	case 2: // skin, mauve or bluish
		v -= between(rng, 0.4, 2)
		return ruled(name, tint(v, 40, 68, 0.04, 0.1), tint(v-tones, 275, 370, 0.015, 0.07))
	}
	return ruled(name, tint(v, 215, 265, 0.01, 0.03), tint(v-tones, 25, 80, 0.02, 0.07)) // cool white, warm
}

// spread lays a ground of a colour, plain or uneven.
func (r *chance) spread(base Colour) {
	rng, p := r.rng, &r.palette
	p.used = append(p.used, base)
	switch rng.IntN(3) {
	case 0:
		r.ground(plain(base))
	case 1:
		r.ground(fade(base, p.near(base, between(rng, -1, 1)), between(rng, 0, 360)))
	case 2:
		r.ground(mottled(base, between(rng, 0.03, 0.08), rng.IntN(1000)))
	}
	if r.dark = mixed(max(base.Value()-1.6, 0.3), base.Oklab().Hue(), base.saturation()); r.casts {
		p.used = append(p.used, r.dark)
	}
}

// tintedLines are white and pale forms on pale paper, drawn with one coloured ink that is
// darker and more saturated than both sides.
func (r *chance) tintedLines() {
	rng := r.rng
	r.lines, r.strokes, r.casts = 3, 0, false
	r.ink = mixed(between(rng, 1.5, 4.8), between(rng, 0, 360), between(rng, 0.2, 0.4))
	r.line = max(1.2, between(rng, 0.003, 0.02)*r.least())
	r.accents = false
	r.palette.used = append(r.palette.used, r.ink)
	r.palette.mix = func(p *palette, name string) local {
		switch p.rng.IntN(3) {
		case 0:
			return p.pale(name)
		case 1: // white and grey
			c := mixed(between(p.rng, 8.6, 9.8), 0, 0)
			return ruled(name, c, turned(c, between(p.rng, 0.9, 2.2), 0, 0))
		}
		c := mixed(between(p.rng, 7.8, 9.5), between(p.rng, 0, 360), between(p.rng, 0.02, 0.1))
		return ruled(name, c, turned(c, between(p.rng, 0.9, 2.2), between(p.rng, -25, 25), between(p.rng, -0.2, 0.7)))
	}
	paper := r.palette.backdrop(between(rng, 8, 9.6))
	r.ground(plain(paper))
	r.grid(1 + rng.IntN(5))
}
