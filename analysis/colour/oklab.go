package colour

import "math"

// Oklab is a colour in Oklab: L from 0 to 1, a and b around 0.
type Oklab struct{ L, A, B float64 }

// Chroma returns the Oklch chroma.
func (c Oklab) Chroma() float64 { return math.Hypot(c.A, c.B) }

// Hue returns the Oklch hue in degrees, [0, 360). It means nothing for a neutral.
func (c Oklab) Hue() float64 { return degrees(c.B, c.A) }

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
