package propose

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// EqualBy says what makes two colours count as equally light.
type EqualBy string

const (
	ByLightness     EqualBy = "lightness"      // L*
	ByLayerGrey     EqualBy = "layer_grey"     // what a grey layer shows, rounded to 8 bits
	BySeenLightness EqualBy = "seen_lightness" // L* corrected for how light saturated colours look
)

// promise is the quantity that a colour to paint must keep exactly, in the unit of its kind.
type promise struct {
	by   EqualBy
	want float64
}

// promiseOf returns the promise to stay as light as s.
func promiseOf(s analysis.Spot, by EqualBy) promise {
	switch by {
	case ByLayerGrey:
		// To 8 bits, half up. The grey of an 8-bit colour is a whole number of hundredths, which
		// its float misses by less than the addend.
		return promise{by, math.Floor(s.LayerGrey + 0.5 + 1e-9)}
	case BySeenLightness:
		return promise{by, s.SeenLightness}
	}
	return promise{ByLightness, s.Lightness}
}

// of returns the promised quantity of linear light.
func (p promise) of(red, green, blue float64) float64 {
	switch p.by {
	case ByLayerGrey:
		return 255 * colour.LayerGrey(colour.EncodedOf(red), colour.EncodedOf(green), colour.EncodedOf(blue))
	case BySeenLightness:
		return colour.SeenLightness(colour.LabOf(red, green, blue))
	}
	return colour.Lightness(colour.Luminance(red, green, blue))
}

// A shine is a hue with a saturation, at any lightness: Oklab's a and b over its L. All its
// colours are one colour of light, L³ times as strong; so what is promised rises with L, and
// the lightness that keeps a promise can be solved for exactly.
type shine struct{ a, b float64 }

// shineOf returns the hue, in degrees, with a saturation.
func shineOf(hue, saturation float64) shine {
	sin, cos := math.Sincos(colour.Radians(hue))
	return shine{saturation * cos, saturation * sin}
}

// times returns the same hue with part of the saturation.
func (s shine) times(part float64) shine { return shine{part * s.a, part * s.b} }

// at returns the colour at an Oklab lightness.
func (s shine) at(lightness float64) colour.Oklab {
	return colour.Oklab{L: lightness, A: lightness * s.a, B: lightness * s.b}
}

// keeps reports whether the display has a colour of this hue and saturation that keeps the
// promise: whether the strongest that it can show is light enough.
func (s shine) keeps(p promise) bool {
	const slack = colour.GamutSlack / 10 // what is made from it stays inside of GamutSlack
	r, g, b := s.at(1).Light()
	if min(r, g, b) < -slack {
		return false
	}
	if p.want <= 0 {
		return true
	}
	most := max(r, g, b)
	if p.by == ByLightness {
		return colour.Luminance(r, g, b)*(1+slack) >= colour.LuminanceOf(p.want)*most
	}
	return p.of(r/most, g/most, b/most) >= p.want-slack
}

// keeping returns the colour of this hue and saturation that keeps the promise.
func (s shine) keeping(p promise) colour.Oklab {
	r, g, b := s.at(1).Light()
	if p.want <= 0 {
		return colour.Oklab{}
	}
	if p.by == ByLightness {
		return s.at(math.Cbrt(colour.LuminanceOf(p.want) / colour.Luminance(r, g, b)))
	}
	most := math.Cbrt(1 / max(r, g, b))
	return s.at(root(most, func(l float64) float64 {
		cube := l * l * l
		return p.of(cube*r, cube*g, cube*b) - p.want
	}))
}

// root returns where f, which rises, is 0: in [0, most], to the last digits that matter, or
// the end that is nearest to it. It is the method of false position with halving of the end that stays (the
// Illinois method; from memory), so that a nearly straight f takes a few steps only.
func root(most float64, f func(x float64) float64) float64 {
	const enough = 1e-12
	low, high := 0.0, most
	below, above := f(low), f(high)
	switch {
	case above <= 0:
		return high
	case below >= 0:
		return low
	}
	for range 3 * colour.Halvings {
		x := high - above*(high-low)/(above-below)
		y := f(x)
		switch {
		case math.Abs(y) < enough || high-low < enough:
			return x
		case y < 0:
			low, below, above = x, y, above/2
		default:
			high, above, below = x, y, below/2
		}
	}
	return low
}

// fit returns the colour that keeps the promise, with the hue and as much of the saturation
// as the display can show, and whether that is all of it. ok is false where nothing keeps the
// promise.
func (s shine) fit(p promise) (c colour.Oklab, whole, ok bool) {
	if s.keeps(p) {
		return s.keeping(p), true, true
	}
	from, ok := s.mostOf(p)
	if !ok {
		return colour.Oklab{}, false, false
	}
	part := colour.Bisect(func(part float64) bool { return s.times(from + part*(1-from)).keeps(p) })
	return s.times(from + part*(1-from)).keeping(p), false, true
}

// mostOf returns a part of the saturation with which the promise can be kept: none, if a grey
// keeps it; otherwise, since a saturated colour may look lighter than white, the greatest of
// a few; ok is false if none of them does.
func (s shine) mostOf(p promise) (part float64, ok bool) {
	if (shine{}).keeps(p) {
		return 0, true
	}
	const parts = 64
	for i := parts - 1; i > 0 && p.by == BySeenLightness; i-- {
		if part := float64(i) / parts; s.times(part).keeps(p) {
			return part, true
		}
	}
	return 0, false
}

// fullSaturation is more than any colour of the display has (blue has 0.69).
const fullSaturation = 1.0

// fitChroma returns the colour of a hue, in degrees, that keeps the promise, with an Oklch
// chroma, or with as much of it as the display can show; whole and ok are as in fit. Of no
// chroma, all can be shown anywhere.
func fitChroma(hue, chroma float64, p promise) (c colour.Oklab, whole, ok bool) {
	switch {
	case chroma <= 0 && (shine{}).keeps(p):
		return shine{}.keeping(p), true, true
	case p.want <= 0:
		return colour.Oklab{}, false, true
	}
	toned := colour.Oklch{L: 1, C: chroma, H: hue}.Oklab()
	toned.L = root(2, func(lightness float64) float64 {
		return p.of(colour.Oklab{L: lightness, A: toned.A, B: toned.B}.Light()) - p.want
	})
	if toned.InGamut() {
		return toned, true, true
	}
	if c, _, ok = shineOf(hue, min(chroma/toned.L, fullSaturation)).fit(p); !ok {
		c, _, ok = shineOf(hue, fullSaturation).fit(p) // looks lighter than white only with more
	}
	return c, false, ok
}
