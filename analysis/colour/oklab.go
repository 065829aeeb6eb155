package colour

import "math"

// Oklab is a colour in Oklab: L from 0 to 1, a and b around 0.
type Oklab struct{ L, A, B float64 }

// Chroma returns the Oklch chroma.
func (c Oklab) Chroma() float64 { return math.Hypot(c.A, c.B) }

// Hue returns the Oklch hue in degrees, [0, 360). It means nothing for a neutral.
func (c Oklab) Hue() float64 { return Degrees(c.B, c.A) }

// OklabOf returns the Oklab of linear red, green and blue. Source: CSS4.
func OklabOf(red, green, blue float64) Oklab { return oklabOfXYZ(XYZOf(red, green, blue)) }

// oklabOfXYZ returns the Oklab of CIE XYZ, relative to D65 with Y = 1.
func oklabOfXYZ(x, y, z float64) Oklab {
	l := math.Cbrt(0.8190224379967030*x + 0.3619062600528904*y - 0.1288737815209879*z)
	m := math.Cbrt(0.0329836539323885*x + 0.9292868615863434*y + 0.0361446663506424*z)
	s := math.Cbrt(0.0481771893596242*x + 0.2642395317527308*y + 0.6335478284694309*z)
	return Oklab{
		L: 0.2104542683093140*l + 0.7936177747023054*m - 0.0040720430116193*s,
		A: 1.9779985324311684*l - 2.4285922420485799*m + 0.4505937096174110*s,
		B: 0.0259040424655478*l + 0.7827717124575296*m - 0.8086757549230774*s,
	}
}

// OklabOfCode returns the Oklab of an 8-bit colour.
func OklabOfCode(c RGB) Oklab { return OklabOf(Linears[c.R], Linears[c.G], Linears[c.B]) }

// Oklch is a colour in Oklch: L from 0 to 1, chroma from 0 to about 0.32 on the display,
// hue in degrees. Colours to paint are made in it.
type Oklch struct{ L, C, H float64 }

// Oklch returns the same colour with chroma and hue. Source: CSS4.
func (c Oklab) Oklch() Oklch { return Oklch{c.L, c.Chroma(), c.Hue()} }

// Oklab returns the same colour with a and b. The hue may be any number of degrees.
// Source: CSS4.
func (c Oklch) Oklab() Oklab {
	sin, cos := math.Sincos(Radians(c.H))
	return Oklab{c.L, c.C * cos, c.C * sin}
}

// Light returns the linear red, green and blue of a colour in Oklab. Outside of the
// display's gamut they lie under 0 or above 1. Source: CSS4.
func (c Oklab) Light() (red, green, blue float64) {
	l := c.L + 0.3963377773761749*c.A + 0.2158037573099136*c.B
	m := c.L - 0.1055613458156586*c.A - 0.0638541728258133*c.B
	s := c.L - 0.0894841775298119*c.A - 1.2914855480194092*c.B
	return coneLights.times(l*l*l, m*m*m, s*s*s)
}

// coneLights is the product of CSS4's matrices from XYZ to linear sRGB
// and from Oklab's cone responses to XYZ.
var coneLights = xyzToLight.of(matrix{
	{1.2268798758459243, -0.5578149944602171, 0.2813910456659647},
	{-0.0405757452148008, 1.1122868032803170, -0.0717110580655164},
	{-0.0763729366746601, -0.4214933324022432, 1.5869240198367816},
})

// Saturation is Oklch chroma over Oklch lightness; NaN for black.
func Saturation(c Oklab) float64 { return c.Chroma() / c.L }

// SaturationOf returns chroma over lightness, 0 for black.
func SaturationOf(c Oklch) float64 {
	if !(c.L > 0) {
		return 0
	}
	return c.C / c.L
}
