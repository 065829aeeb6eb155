package scenetest

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// Colour is a colour in linear light, sRGB primaries, 0 to 1 each.
type Colour struct{ Red, Green, Blue float64 }

// Lab returns the colour in CIE 1976 L*a*b* (D65).
func (c Colour) Lab() colour.Lab { return colour.LabOf(c.Red, c.Green, c.Blue) }

// Oklab returns the colour in Oklab.
func (c Colour) Oklab() colour.Oklab { return colour.OklabOf(c.Red, c.Green, c.Blue) }

// Value returns the step of the ten-step value scale, 0 to 10.
func (c Colour) Value() float64 {
	return colour.ValueOfY(colour.Luminance(c.Red, c.Green, c.Blue))
}

// apart returns the plain distance in L*a*b*.
func (c Colour) apart(d Colour) float64 {
	a, b := c.Lab(), d.Lab()
	return math.Sqrt((a.L-b.L)*(a.L-b.L) + (a.A-b.A)*(a.A-b.A) + (a.B-b.B)*(a.B-b.B))
}

// ofCode returns the colour of an 8-bit code, as a painter picks it.
func ofCode(c colour.RGB) Colour {
	return Colour{colour.Linear(c.R), colour.Linear(c.G), colour.Linear(c.B)}
}

// paint is a colour as paint on the canvas: encoded sRGB, 0 to 1. Painting programs mix
// encoded colours.
type paint [3]float32

func (c Colour) paint() paint {
	return paint{float32(colour.EncodedOf(c.Red)), float32(colour.EncodedOf(c.Green)), float32(colour.EncodedOf(c.Blue))}
}

// linears holds the linear light of encoded sRGB in steps fine enough to interpolate.
var linears = func() (t [4098]float64) {
	for i := range t {
		t[i] = colour.LinearOf(float64(i) / 4096)
	}
	return t
}()

func (p paint) linear() Colour {
	of := func(v float32) float64 {
		at := 4096 * float64(min(max(v, 0), 1))
		i := int(at)
		return linears[i] + (linears[i+1]-linears[i])*(at-float64(i))
	}
	return Colour{of(p[0]), of(p[1]), of(p[2])}
}

func (p paint) to(q paint, share float64) paint {
	s := float32(share)
	return paint{p[0] + (q[0]-p[0])*s, p[1] + (q[1]-p[1])*s, p[2] + (q[2]-p[2])*s}
}

// times scales the encoded colour.
func (p paint) times(by float64) paint {
	s := float32(by)
	return paint{min(p[0]*s, 1), min(p[1]*s, 1), min(p[2]*s, 1)}
}

// hex reads "#rrggbb". The scenes' own colours are well formed; anything else is a bug.
func hex(s string) Colour {
	c, err := colour.Parse(s)
	if err != nil {
		panic(err)
	}
	return ofCode(c)
}

func (c Colour) shows() bool {
	const slack = 1e-4
	return min(c.Red, c.Green, c.Blue) > -slack && max(c.Red, c.Green, c.Blue) < 1+slack
}

// mixed returns the 8-bit colour of a value (0 to 10), an Oklch hue in degrees and a
// saturation (Oklch chroma over lightness), less saturated where the display can't show it.
func mixed(value, hue, saturation float64) Colour {
	sin, cos := math.Sincos(hue * math.Pi / 180)
	var c Colour
	for ; ; saturation *= 0.98 {
		low, high := 0.0, 1.0
		for range 40 {
			l := (low + high) / 2
			c.Red, c.Green, c.Blue = colour.Oklab{L: l, A: l * saturation * cos, B: l * saturation * sin}.Light()
			if colour.Luminance(c.Red, c.Green, c.Blue) < colour.YOfValue(value) {
				low = l
			} else {
				high = l
			}
		}
		if c.shows() || saturation < 1e-3 {
			return ofCode(colour.RGB{R: colour.Encode(c.Red), G: colour.Encode(c.Green), B: colour.Encode(c.Blue)})
		}
	}
}

// saturation returns Oklch chroma over lightness.
func (c Colour) saturation() float64 { return c.Oklab().Chroma() / max(c.Oklab().L, 1e-9) }

// turned returns a shadow or an accent so many tones darker than light whose hue is turned by degrees and whose
// saturation gains a share. Without either it goes straight toward black: the same light, less
// of it.
func turned(light Colour, tones, degrees, gain float64) Colour {
	return mixed(light.Value()-tones, light.Oklab().Hue()+degrees, light.saturation()*(1+gain))
}

// standsOut reports whether an accent's colour is one by the trade's word: more chroma than
// either side, or a hue that is turned away from both, not between them. clearly is 1 for
// a margin of 3 C*ab or 9 degrees, 2 for twice that.
func (l local) standsOut(accent Colour, clearly float64) bool {
	chroma, degrees := 3*clearly, 9*clearly
	a, light, shadow := accent.Oklab(), l.light.Oklab(), l.shadow.Oklab()
	if accent.Lab().Chroma() >= max(l.light.Lab().Chroma(), l.shadow.Lab().Chroma())+chroma {
		return true
	}
	one, other := turn(light.Hue(), a.Hue()), turn(shadow.Hue(), a.Hue())
	return min(math.Abs(one), math.Abs(other)) >= degrees && one*other > 0
}

// ink returns the colour of a line around fill: darker and more saturated.
func ink(fill Colour, tones float64) Colour {
	return mixed(max(fill.Value()-tones, 0.6), fill.Oklab().Hue()-12, fill.saturation()*1.4)
}
