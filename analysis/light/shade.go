package light

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
)

// Shade proposes colours as propose.Shade does, but the shadows are those that a ratio's light
// gives to the base, and all else turns toward the hue that white has in its shadow, if it has one.
//
// As many tones below the base as the picture's shadows lie, the shadow is the picture's. A
// shallower one is a half-shadow, in which a part of the light is left; a deeper one has the
// colour of the whole shadow, and less of its light.
func (r Ratio) Shade(base analysis.Spot, o propose.Options) *propose.Shades {
	if white := r.WhiteInShadow(); !families.DefaultRules().Neutral(white) {
		o.ShadowHue = white.Oklab.Hue()
	}
	s := propose.Shade(base, o)
	for i := range s.Ramp {
		if step := &s.Ramp[i]; step.Spot != nil {
			tones := step.Tones
			*step = r.below(base, tones).Shadow(base)
			step.Tones = tones // what was asked for: its code is as near as 8 bits are
		}
	}
	return s
}

// below returns the ratio that leaves a base so many tones lighter than its shadow, above 0 and no
// more than there are.
func (r Ratio) below(base analysis.Spot, tones float64) Ratio {
	light := linear(base)
	shallower := func(r Ratio) bool {
		left := r.under(light)
		return base.Value-colour.ValueOfY(colour.Luminance(left[0], left[1], left[2])) < tones
	}
	if !shallower(r) {
		part := colour.Bisect(func(part float64) bool { return shallower(r.mixed(part)) })
		return r.mixed(part)
	}
	const least = 1e-4 // of the light: nothing is left of it in 8 bits
	part := colour.Bisect(func(part float64) bool { return shallower(r.times(math.Pow(least, part))) })
	return r.times(math.Pow(least, part))
}

// mixed returns what a half-shadow leaves of the light: none of the light of the ratio is missing
// at 0, all of it at 1.
func (r Ratio) mixed(part float64) Ratio {
	return Ratio{1 - part*(1-r.Red), 1 - part*(1-r.Green), 1 - part*(1-r.Blue)}
}
