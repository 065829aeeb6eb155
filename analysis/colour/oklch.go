package colour

import "math"

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
	return coneLight(l*l*l, m*m*m, s*s*s)
}

// coneLight returns the linear red, green and blue of Oklab's cone responses.
func coneLight(l, m, s float64) (red, green, blue float64) {
	k := &coneLights
	return k[0][0]*l + k[0][1]*m + k[0][2]*s,
		k[1][0]*l + k[1][1]*m + k[1][2]*s,
		k[2][0]*l + k[2][1]*m + k[2][2]*s
}

// coneLights is the product of CSS4's matrices from XYZ to linear sRGB
// and from Oklab's cone responses to XYZ.
var coneLights = func() (product [3][3]float64) {
	toXYZ := [3][3]float64{
		{1.2268798758459243, -0.5578149944602171, 0.2813910456659647},
		{-0.0405757452148008, 1.1122868032803170, -0.0717110580655164},
		{-0.0763729366746601, -0.4214933324022432, 1.5869240198367816},
	}
	for i := range product {
		for j := range product[i] {
			for k := range 3 {
				product[i][j] += xyzToLight[i][k] * toXYZ[k][j]
			}
		}
	}
	return product
}()

// Saturation is Oklch chroma over Oklch lightness; NaN for black.
func Saturation(c Oklab) float64 { return c.Chroma() / c.L }

// SaturationOf returns chroma over lightness, 0 for black.
func SaturationOf(c Oklch) float64 {
	if !(c.L > 0) {
		return 0
	}
	return c.C / c.L
}
