package scenetest

import (
	"fmt"
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

// code rounds to the 8 bits that a painter picks.
func (c Colour) code() Colour {
	round := func(v float64) float64 { return colour.Linear(colour.Encode(v)) }
	return Colour{round(c.Red), round(c.Green), round(c.Blue)}
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
	var r, g, b uint8
	if _, err := fmt.Sscanf(s, "#%02x%02x%02x", &r, &g, &b); err != nil {
		panic("scenetest: colour " + s)
	}
	return Colour{colour.Linear(r), colour.Linear(g), colour.Linear(b)}
}

// fromOklab returns linear light, which may lie outside 0 to 1. Source: OKLAB.
func fromOklab(l, a, b float64) Colour {
	cube := func(v float64) float64 { return v * v * v }
	long := cube(l + 0.3963377774*a + 0.2158037573*b)
	middle := cube(l - 0.1055613458*a - 0.0638541728*b)
	short := cube(l - 0.0894841775*a - 1.2914855480*b)
	return Colour{
		4.0767416621*long - 3.3077115913*middle + 0.2309699292*short,
		-1.2684380046*long + 2.6097574011*middle - 0.3413193965*short,
		-0.0041960863*long - 0.7034186147*middle + 1.7076147010*short,
	}
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
			c = fromOklab(l, l*saturation*cos, l*saturation*sin)
			if colour.Luminance(c.Red, c.Green, c.Blue) < colour.YOfValue(value) {
				low = l
			} else {
				high = l
			}
		}
		if c.shows() || saturation < 1e-3 {
			return c.code()
		}
	}
}

// saturation returns Oklch chroma over lightness.
func (c Colour) saturation() float64 { return c.Oklab().Chroma() / max(c.Oklab().L, 1e-9) }

// turned returns a shadow so many tones darker whose hue is turned by degrees and whose
// saturation gains a share. Without either it goes straight toward black: the same light, less
// of it.
func turned(light Colour, tones, degrees, gain float64) Colour {
	return mixed(light.Value()-tones, light.Oklab().Hue()+degrees, light.saturation()*(1+gain))
}

// accentAt returns a core-shadow accent: as light as base, the hue turned, more saturated.
func accentAt(base Colour, degrees, gain float64) Colour {
	return mixed(base.Value(), base.Oklab().Hue()+degrees, base.saturation()*(1+gain))
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
