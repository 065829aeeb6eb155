package light

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
)

// Shade proposes colours as propose.Shade does, but the shadows are those that a ratio's light
// gives to the base, the lights those of which it gives the base as a shadow, and all else turns
// toward the hue that white has in its shadow, if it has one.
//
// The shadow and the light that are nearest to the ratio's own in tones are these themselves. A
// shallower shadow is a half-shadow, in which a part of the light is left; a deeper one has the
// colour of the whole shadow, and less of its light. So with lights: up to the whole light more of
// it falls on the base, beyond that it is stronger. More than white is cut of the base's own light.
func (r Ratio) Shade(base analysis.Spot, o propose.Options) *propose.Shades {
	if white := r.WhiteInShadow(); !families.DefaultRules().Neutral(white) {
		o.ShadowHue = white.Oklab.Hue()
	}
	s := propose.Shade(base, o)
	down, up := r.Tones(base)
	for i, tones := range with(down, len(s.Ramp)) {
		s.Ramp[i] = r.step(base, tones)
	}
	for i, tones := range with(up, len(s.Lights)) {
		s.Lights[i] = r.step(base, -tones)
	}
	return s
}

// Tones returns by how many tones the shadow of a base lies below it (down), and by how many the
// light of which the base is the shadow lies above it (up), which more than white doesn't.
func (r Ratio) Tones(base analysis.Spot) (down, up float64) {
	light, i := linear(base), r.Inverse()
	return base.Value - valueOf(r.under(light)), valueOf(i.under(light)) - base.Value
}

// with returns the tones 1 to n, the one that is nearest to a depth of shadows being that depth.
func with(depth float64, n int) []float64 {
	tones := make([]float64, n)
	for i := range tones {
		tones[i] = float64(i + 1)
	}
	if depth > 0 {
		tones[int(max(1, min(math.Round(depth), float64(n))))-1] = depth
	}
	return tones
}

// step returns the colour so many tones below a base that is lit, or above one in the shadow where
// they are below 0.
func (r Ratio) step(base analysis.Spot, tones float64) (s propose.Step) {
	switch {
	case base.Value == 0 || base.Value-tones < 0 || base.Value-tones > colour.Steps:
		return propose.Step{Tones: tones, Note: propose.NoRoom}
	case tones < 0:
		s = r.above(base, -tones).Shadow(base)
	default:
		s = r.below(base, tones).Shadow(base)
	}
	s.Tones = tones // what was asked for: its code is as near as 8 bits are
	return s
}

// faintest is the part of a light of which nothing is left in 8 bits.
const faintest = 1e-4

// below returns the ratio that leaves a base so many tones lighter than its shadow, above 0 and no
// more than there are.
func (r Ratio) below(base analysis.Spot, tones float64) Ratio {
	light := linear(base)
	shallower := func(r Ratio) bool { return base.Value-valueOf(r.under(light)) < tones }
	if !shallower(r) {
		part := colour.Bisect(func(part float64) bool { return shallower(r.mixed(part)) })
		return r.mixed(part)
	}
	part := colour.Bisect(func(part float64) bool { return shallower(r.times(math.Pow(faintest, part))) })
	return r.times(math.Pow(faintest, part))
}

// above returns the ratio that lights a base, which is in the shadow, so many tones up, above 0 and
// no more than there are.
func (r Ratio) above(base analysis.Spot, tones float64) Ratio {
	shadow, whole := linear(base), r.Inverse()
	darker := func(r Ratio) bool { return valueOf(r.under(shadow))-base.Value < tones }
	if !darker(whole) {
		lit := func(part float64) Ratio { return whole.scaled(r.mixed(1 - part)) }
		return lit(colour.Bisect(func(part float64) bool { return darker(lit(part)) }))
	}
	part := colour.Bisect(func(part float64) bool { return darker(whole.times(math.Pow(faintest, -part))) })
	return whole.times(math.Pow(faintest, -part))
}

// valueOf is that of linear light; more than white counts as white.
func valueOf(light [3]float64) float64 { return colour.ValueOfY(luminance(light)) }

// mixed returns what a half-shadow leaves of the light: none of the light of the ratio is missing
// at 0, all of it at 1.
func (r Ratio) mixed(part float64) Ratio {
	return Ratio{1 - part*(1-r.Red), 1 - part*(1-r.Green), 1 - part*(1-r.Blue)}
}

// scaled returns the ratio with each channel multiplied by another's.
func (r Ratio) scaled(by Ratio) Ratio {
	return Ratio{r.Red * by.Red, r.Green * by.Green, r.Blue * by.Blue}
}
