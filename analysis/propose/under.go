package propose

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// Under returns what a base becomes where its linear light is multiplied by a factor, 0 and
// above, for each of red, green and blue: as an 8-bit colour that keeps the lightness, brought into
// the display's gamut by its chroma. Of less light it is as dark as black at most, of more as light
// as white.
func Under(base analysis.Spot, red, green, blue float64) Step {
	r, g, b := base.Lab.Light()
	r, g, b = red*max(0, r), green*max(0, g), blue*max(0, b)
	made := colour.OklabOf(r, g, b)
	p := promise{ByLightness, colour.Lightness(min(colour.Luminance(r, g, b), 1))}
	step := Step{Note: AsMade, Made: made}
	if !made.InGamut() {
		step.Note = AtEdge
		fitted, _, ok := shineIn(made).fit(p)
		if !ok {
			fitted = colour.Oklab{L: math.Cbrt(colour.LuminanceOf(p.want))}
		}
		step.Made = fitted
	}
	code, kept := settle(step.Made, p)
	step.Made = kept
	step.Spot = new(analysis.SpotOf(code))
	step.Tones = base.Value - step.Spot.Value
	m := maker{base: base, Oklch: base.Oklab.Oklch()}
	m.measure(&step)
	return step
}

// shineIn returns the hue and saturation of a colour; none of black.
func shineIn(c colour.Oklab) shine {
	if !(c.L > 0) {
		return shine{}
	}
	return shine{c.A / c.L, c.B / c.L}
}
