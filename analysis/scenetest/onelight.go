package scenetest

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

// Lit is a picture in one light: what it is painted with is true of all its forms, but for one
// that may be lit from elsewhere.
type Lit struct {
	*Scene
	Degrees float64 // where the light comes from: 0 from the right, 90 from above
	Ratio   Colour  // shadow over light in linear light, a factor for each channel
	Turned  string  // the family that is lit from elsewhere; "" for none, also where none of the first three is scored
}

// OneLight paints three to eight forms in one light from a seed: it falls from one direction on
// all of them, and what is left of it in the shadow is the same for all local colours, but for
// what 8 bits round. With turned, one of those that are scored is lit from another direction, at
// least 90 degrees away. Seeds are open and held out as those of Random. The same seed gives the
// same scene.
func OneLight(seed int, turned bool) (s *Lit) {
	if !turned {
		return oneLight(seed, "")
	}
	for i := range 3 { // at least as many forms are there
		odd := fmt.Sprintf("family %d", 1+(seed+i)%3)
		s = oneLight(seed, odd)
		if k := slices.IndexFunc(s.Families, func(t Truth) bool { return t.Name == odd }); k >= 0 && s.Families[k].Scored {
			s.Turned = odd
			return s
		}
	}
	return s
}

// oneLight paints such a scene; odd is the form that is lit from elsewhere.
func oneLight(seed int, odd string) *Lit {
	rng := rand.New(rand.NewPCG(uint64(seed), 11))
	size := kindSizes[rng.IntN(len(kindSizes))]
	degrees := between(rng, 0, 360)
	r := &chance{easel: newEasel(fmt.Sprintf("one light %d", seed), size, degrees), rng: rng}
	r.seed = uint64(seed)
	r.habits()
	r.accents, r.glows = false, false // colours that are neither light nor shadow
	lit := one(rng, illuminations...).varied(r).shown()
	full := lit.full()
	s := &Lit{Degrees: degrees, Ratio: Colour{lit.sky.Red / full.Red, lit.sky.Green / full.Green, lit.sky.Blue / full.Blue}}

	r.palette.mix = func(_ *palette, name string) local {
		paint := mixed(between(rng, 4.2, 9.4), between(rng, 0, 360), between(rng, 0, 0.22))
		return ruled(name, paint.under(full), paint.under(lit.sky))
	}
	wall := mixed(between(rng, 4, 9.2), between(rng, 0, 360), between(rng, 0, 0.09))
	base := wall.under(full)
	r.dark = wall.under(lit.sky)
	r.palette.used = append(r.palette.used, base, r.dark)
	r.ground(plain(base))

	count := 3 + rng.IntN(6)
	other := degrees + between(rng, 90, 270)
	r.lightOf = func(l local) point {
		if l.name == odd {
			return toward(other)
		}
		return toward(degrees)
	}
	r.sided = r.oneSided
	r.grid(count)
	r.finish = r.finishing()
	s.Scene = r.done()
	return s
}

// oneSided shades what has only a left and a right side, standing cylinders and corners, from
// the side that the light comes from; where it comes from above or below, as what is bent.
func (r *chance) oneSided(o outline, kind int) shading {
	if kind != upright && kind != corner {
		return nil
	}
	switch {
	case math.Abs(r.light.x) < 0.5:
		return ball(0.2)
	case kind == upright:
		return nil
	}
	side := 0.0
	if r.light.x < 0 {
		side = 180
	}
	b := o.bounds()
	return from(side, planeAt(point{float64(b.Min.X) + 0.5*float64(b.Dx()), 0}, 0, 0, 0))
}

// shown is the same light, dimmed until the display can show white paper in it.
func (i illumination) shown() illumination {
	f := i.full()
	by := min(1, 1/max(f.Red, f.Green, f.Blue))
	dim := func(c Colour) Colour { return Colour{by * c.Red, by * c.Green, by * c.Blue} }
	return illumination{dim(i.sun), dim(i.sky)}
}
