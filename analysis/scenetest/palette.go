package scenetest

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// palette makes local colours that a painter could tell apart.
type palette struct {
	rng      *rand.Rand
	low, top float64  // values of the light sides
	used     []Colour // what lies in the picture already

	mix func(p *palette, name string) local // mixes other local colours than try; nil for most
}

// between returns a random number from from up to to.
func between(rng *rand.Rand, from, to float64) float64 { return from + (to-from)*rng.Float64() }

// perhaps returns true in a share of the cases.
func perhaps(rng *rand.Rand, share float64) bool { return rng.Float64() < share }

// leastApart is the least distance in L*a*b* of any two sides of different local colours, since
// forms of one colour that touch are one form to the eye; and of a colour added to the picture.
const leastApart = 13

func (p *palette) free(c Colour) bool {
	for _, u := range p.used {
		if c.apart(u) < leastApart {
			return false
		}
	}
	return true
}

// local makes the next local colour; ok is false if the picture is full of colours.
func (p *palette) local(n int) (l local, ok bool) {
	for range 400 {
		l = p.candidate(fmt.Sprintf("family %d", n))
		if p.sound(l) && l.shadow.Value() > 0.6 && p.free(l.light) && p.free(l.shadow) {
			p.used = append(p.used, l.light, l.shadow)
			return l, true
		}
	}
	return l, false
}

func (p *palette) candidate(name string) local {
	if p.mix != nil {
		return p.mix(p, name)
	}
	return p.try(name)
}

// sound reports whether a local colour is one beyond doubt. Of those mixed in another way it
// only asks that the sides be two: there the light may be coloured.
func (p *palette) sound(l local) bool {
	if p.mix != nil {
		return l.light.Value()-l.shadow.Value() >= 0.7 && l.light.Lab().L-l.shadow.Lab().L >= 6
	}
	t := Truth{Light: l.light, Shadow: l.shadow, TowardBlack: l.straight}
	return t.Clear() && sameHue(l.light, l.shadow)
}

// sameHue reports whether two colours could be one local colour: hues at most 50 degrees
// apart, or one of them hardly coloured.
func sameHue(a, b Colour) bool {
	return min(a.Lab().Chroma(), b.Lab().Chroma()) < 8 || math.Abs(turn(a.Lab().Hue(), b.Lab().Hue())) <= 50
}

// try mixes a light and its shadow.
func (p *palette) try(name string) local {
	rng := p.rng
	tones := between(rng, 1.7, 3.3)
	switch {
	case perhaps(rng, 0.15):
		tones = between(rng, 0.8, 1.5)
	case perhaps(rng, 0.18):
		tones = between(rng, 3.4, 4.5)
	}
	saturation := between(rng, 0.07, 0.27)
	if perhaps(rng, 0.12) {
		saturation = between(rng, 0, 0.01)
	}
	light := mixed(between(rng, p.low, p.top), between(rng, 0, 360), saturation)
	if saturation < 0.02 {
		return local{name, light, turned(light, tones, 0, 0), false}
	}
	way := 1.0
	if perhaps(rng, 0.5) {
		way = -1
	}
	switch rng.IntN(10) {
	case 0, 1, 2, 3:
		return local{name, light, turned(light, tones, 0, -between(rng, 0, 0.35)), true}
	case 4: // richer only
		return local{name, light, turned(light, tones, way*between(rng, 0, 4), between(rng, 0.3, 0.7)), false}
	case 5: // turned, but duller
		return local{name, light, turned(light, tones, way*between(rng, 16, 40), between(rng, -0.3, 0)), false}
	}
	return local{name, light, turned(light, tones, way*between(rng, 14, 45), between(rng, 0.2, 0.7)), false}
}

// backdrop mixes a colour for the ground.
func (p *palette) backdrop(value float64) Colour {
	c := mixed(value, between(p.rng, 0, 360), between(p.rng, 0, 0.08))
	p.used = append(p.used, c)
	return c
}

// near mixes a variation of a colour, so many tones away.
func (p *palette) near(c Colour, tones float64) Colour {
	d := mixed(min(max(c.Value()+tones, 0.3), 9.9), c.Oklab().Hue(), c.saturation())
	p.used = append(p.used, d, Colour{(c.Red + d.Red) / 2, (c.Green + d.Green) / 2, (c.Blue + d.Blue) / 2})
	return d
}

// unlike mixes a colour for a flat thing, which no side in the picture could be a partner
// of: its hue is far from all of them. ok is false where there is no such hue.
func (p *palette) unlike(locals []local) (c Colour, ok bool) {
	for range 60 {
		c = mixed(between(p.rng, 2.5, 8.5), between(p.rng, 0, 360), between(p.rng, 0.15, 0.28))
		ok = p.free(c) && c.Lab().Chroma() > 20
		for _, l := range locals {
			for _, side := range []Colour{l.light, l.shadow} {
				ok = ok && side.Lab().Chroma() > 14 && math.Abs(turn(c.Lab().Hue(), side.Lab().Hue())) > 80
			}
		}
		if ok {
			p.used = append(p.used, c)
			return c, true
		}
	}
	return c, false
}
