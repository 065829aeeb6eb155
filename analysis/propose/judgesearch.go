package propose

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// shadowSearch looks for the 8-bit colour nearest to a chosen shadow that meets a demand. It
// goes over a grid of hues and saturations, at the nearest lightness that reads, then over
// finer ones around the best, and last from code to code.
type shadowSearch struct {
	shadowDemand
	dark, light float64 // what reads, relative luminance

	best     colour.RGB
	distance float64 // CIEDE2000; infinite until there is one
}

// The grid's first step and how often it is halved; half as many places lie on either side.
const (
	searchHue        = 8.0  // degrees
	searchSaturation = 0.03 // Oklch chroma over lightness
	searchTones      = 0.1
	searchFirst      = 2.0 // steps
	searchLast       = 1.0 / 4
	searchFirstSides = 4
	searchSides      = 2
)

// searchReach is how many codes in each channel around the colour found there is no nearer.
const searchReach = 6

// searchShadow returns the colour nearest to the chosen shadow that meets the demand, and how
// far it is: infinitely if there is none.
func searchShadow(d shadowDemand) (c colour.RGB, distance float64) {
	s := shadowSearch{shadowDemand: d, distance: math.Inf(1)}
	const slack = 0.05 + 1e-6 // tones are compared as printed
	s.dark = colour.YOfValue(max(0, d.local.Value-d.rules.MostTones-slack))
	s.light = colour.YOfValue(max(0, d.local.Value-d.rules.LeastTones+slack))
	for _, centre := range s.starts() {
		sides := searchFirstSides
		for step := searchFirst; step >= searchLast; step /= 2 {
			centre, sides = s.around(centre, step, sides), searchSides
		}
	}
	s.creep()
	return s.best, s.distance
}

// place is where the grid's middle lies.
type place struct{ hue, saturation, tones float64 }

// starts returns where to look from: the shadow's own place, brought to the nearest number
// of tones that reads, and the ramp's, since what is one local colour may lie out of reach of
// the first. The hue of a neutral shadow is chance: the ramp's counts, or that of a neutral
// local colour.
func (s *shadowSearch) starts() []place {
	own, local := s.chosen.Oklab.Oklch(), s.local.Oklab.Oklch()
	p := place{own.H, colour.SaturationOf(own), s.tones(s.local.Value - s.chosen.Value)}
	switch {
	case s.asRamp:
		return []place{s.rampPlace(p.tones), s.rampPlace(1)}
	case s.rules.Neutral(s.chosen):
		p.hue = local.H
	}
	return []place{p, s.rampPlace(p.tones)}
}

// rampPlace returns the place with the turn of the ramp's step of so many tones.
func (s *shadowSearch) rampPlace(tones float64) place {
	local := s.local.Oklab.Oklch()
	away := s.tones(s.local.Value - s.chosen.Value)
	lightness := math.Cbrt(colour.YOfValue(s.local.Value - away)) // of a grey: near enough to begin with
	return place{local.H + s.shift(tones), colour.SaturationOf(local) * (1 + s.gain(tones, lightness)), away}
}

// tones cuts a number of tones to what reads and there is room for.
func (s *shadowSearch) tones(tones float64) float64 {
	return max(s.rules.LeastTones, min(tones, s.rules.MostTones, s.local.Value))
}

// around tries the grid around a place and returns the best place of all so far.
func (s *shadowSearch) around(centre place, step float64, sides int) place {
	best := centre
	for h := -sides; h <= sides; h++ {
		for c := -sides; c <= sides; c++ {
			for t := -1; t <= 1; t++ {
				p := place{
					centre.hue + step*searchHue*float64(h),
					max(0, centre.saturation+step*searchSaturation*float64(c)),
					s.tones(centre.tones + step*searchTones*float64(t)),
				}
				if s.tryPlace(p) {
					best = p
				}
			}
		}
	}
	return best
}

// tryPlace reports whether the colour of a place meets the demand and is nearer than all
// before.
func (s *shadowSearch) tryPlace(p place) bool {
	value := s.local.Value - p.tones
	if value < 0 {
		return false
	}
	made, _, ok := shineOf(p.hue, p.saturation).fit(promise{ByLightness, colour.Lightness(colour.YOfValue(value))})
	if !ok {
		return false
	}
	r, g, b := made.Light()
	if colour.CIEDE2000(s.chosen.Lab, colour.LabOf(r, g, b)) >= s.distance+1 { // rounding won't make up for that
		return false
	}
	return s.try(colour.RGB{R: colour.Encode(r), G: colour.Encode(g), B: colour.Encode(b)})
}

// try takes a code that meets the demand and is nearer than all before.
func (s *shadowSearch) try(c colour.RGB) bool {
	r, g, b := colour.Linears[c.R], colour.Linears[c.G], colour.Linears[c.B]
	if y := colour.Luminance(r, g, b); y < s.dark || y > s.light {
		return false
	}
	distance := colour.CIEDE2000(s.chosen.Lab, colour.LabOf(r, g, b))
	if distance >= s.distance || !s.metBy(c) {
		return false
	}
	s.best, s.distance = c, distance
	return true
}

// creep goes on from the best code to the best around it, until there is no nearer one within
// searchReach.
func (s *shadowSearch) creep() {
	if math.IsInf(s.distance, 1) {
		return
	}
	for s.tryAround(s.best, 1) || s.tryAround(s.best, searchReach) {
	}
}

// tryAround reports whether a code up to reach from c in each channel is better than all
// before.
func (s *shadowSearch) tryAround(c colour.RGB, reach int) bool {
	better := false
	for near := range codesAround(c, reach) {
		better = s.try(near) || better
	}
	return better
}
