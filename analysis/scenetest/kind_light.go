package scenetest

import "app.tonedesk/analysis/colour"

// illumination is what lights a picture: from one side, and from all around. Linear light
// that white paper sends back; invented, to look like what they are named after.
type illumination struct{ sun, sky Colour }

var illuminations = []illumination{
	{Colour{0.80, 0.45, 0.17}, Colour{0.17, 0.18, 0.29}},  // sunset
	{Colour{0.58, 0.46, 0.36}, Colour{0.32, 0.36, 0.48}},  // dawn
	{Colour{0.16, 0.25, 0.40}, Colour{0.05, 0.06, 0.055}}, // moonlight
	{Colour{0.82, 0.58, 0.24}, Colour{0.11, 0.11, 0.15}},  // lamp
	{Colour{0.75, 0.28, 0.07}, Colour{0.09, 0.08, 0.11}},  // fire
	{Colour{0.12, 0.50, 0.52}, Colour{0.04, 0.14, 0.28}},  // under water
	{Colour{0.45, 0.62, 0.22}, Colour{0.09, 0.20, 0.17}},  // under leaves
	{Colour{0.66, 0.16, 0.48}, Colour{0.06, 0.14, 0.26}},  // stage
	{Colour{0.60, 0.55, 0.52}, Colour{0.30, 0.20, 0.36}},  // daylight in a violet room
}

// colouredLight puts the whole picture under one light: of every local colour the shadow
// is the light times nearly the same factors, in linear light.
func (r *chance) colouredLight() {
	rng, p := r.rng, &r.palette
	lit := one(rng, illuminations...).varied(r)
	r.accents, r.glows, r.casts = false, false, perhaps(rng, 0.6)
	p.mix = func(p *palette, name string) local {
		paint := mixed(between(rng, 4.2, 9.4), between(rng, 0, 360), between(rng, 0, 0.22))
		return ruled(name, paint.under(lit.full()), paint.under(lit.sky.varied(r, 0.07)))
	}
	wall := mixed(between(rng, 4, 9.2), between(rng, 0, 360), between(rng, 0, 0.09))
	base := wall.under(lit.full())
	p.used = append(p.used, base)
	if r.dark = wall.under(lit.sky); r.casts {
		p.used = append(p.used, r.dark)
	}
	r.ground(one(rng, plain(base), mottled(base, 0.05, rng.IntN(1000))))
	r.grid(1 + rng.IntN(8))
}

// full is the light on a lit side.
func (i illumination) full() Colour {
	return Colour{i.sun.Red + i.sky.Red, i.sun.Green + i.sky.Green, i.sun.Blue + i.sky.Blue}
}

func (i illumination) varied(r *chance) illumination {
	const most = 0.15
	return illumination{i.sun.varied(r, most), i.sky.varied(r, most)}
}

// varied changes each channel by a share at most.
func (c Colour) varied(r *chance, most float64) Colour {
	by := func() float64 { return between(r.rng, 1-most, 1+most) }
	return Colour{c.Red * by(), c.Green * by(), c.Blue * by()}
}

// under is the 8-bit colour of paint in a light.
func (c Colour) under(light Colour) Colour {
	code := func(v float64) uint8 { return colour.Encode(min(v, 1)) }
	return ofCode(colour.RGB{R: code(c.Red * light.Red), G: code(c.Green * light.Green), B: code(c.Blue * light.Blue)})
}
