package colour

import "math"

// Lab is a colour in CIE 1976 L*a*b*, relative to the display's white (D65).
type Lab struct{ L, A, B float64 }

// Chroma returns C*ab. Source: CIE15.
func (c Lab) Chroma() float64 { return math.Hypot(c.A, c.B) }

// Hue returns hab in degrees, [0, 360). It means nothing for a neutral. Source: CIE15.
func (c Lab) Hue() float64 { return Degrees(c.B, c.A) }

// Degrees returns the angle of (x, y), [0, 360); 0 for (0, 0).
func Degrees(y, x float64) float64 {
	d := math.Atan2(y, x) * 180 / math.Pi
	if d < 0 {
		d += 360
	}
	if d >= 360 { // -1e-20 + 360
		d = 0
	}
	return d
}

// White of the display, D65, with Y = 1 (CSS4: x 0.3127, y 0.3290).
const (
	WhiteX = 0.3127 / 0.3290
	WhiteZ = (1 - 0.3127 - 0.3290) / 0.3290
)

// XYZOf returns CIE XYZ, relative to D65 with Y = 1, of linear red, green and blue.
// Source: CSS4, exact fractions.
func XYZOf(red, green, blue float64) (x, y, z float64) {
	return srgbToXYZ.times(red, green, blue)
}

// srgbToXYZ is the matrix from linear sRGB to XYZ (CSS4, exact fractions).
var srgbToXYZ = matrix{
	{506752.0 / 1228815, 87881.0 / 245763, 12673.0 / 70218},
	{RedLuminance, GreenLuminance, BlueLuminance},
	{7918.0 / 409605, 87881.0 / 737289, 1001167.0 / 1053270},
}

// LabOf returns the L*a*b* of linear red, green and blue. Source: CIE15.
func LabOf(red, green, blue float64) Lab {
	x, y, z := XYZOf(red, green, blue)
	fx, fy, fz := LabF(x/WhiteX), LabF(y), LabF(z/WhiteZ)
	return Lab{L: 116*fy - 16, A: 500 * (fx - fy), B: 200 * (fy - fz)}
}

// LabF is the cube root of L*a*b*, with its straight piece near black. Source: CIE15.
func LabF(t float64) float64 {
	if t > cieEpsilon {
		return math.Cbrt(t)
	}
	return (cieKappa*t + 16) / 116
}

// Light returns the linear red, green and blue of a colour in L*a*b*. Outside of the
// display's gamut they lie under 0 or above 1. Sources: CIE15, CSS4.
func (c Lab) Light() (red, green, blue float64) {
	return xyzToLight.times(c.xyz())
}

// labInverse turns LabF round.
func labInverse(f float64) float64 {
	if t := f * f * f; t > cieEpsilon {
		return t
	}
	return (116*f - 16) / cieKappa
}

// xyzToLight is the matrix from XYZ to linear sRGB (CSS4, exact fractions).
var xyzToLight = matrix{
	{12831.0 / 3959, -329.0 / 214, -1974.0 / 3959},
	{-851781.0 / 878810, 1648619.0 / 878810, 36519.0 / 878810},
	{705.0 / 12673, -2585.0 / 12673, 705.0 / 667},
}

// Oklab returns the same colour in Oklab.
func (c Lab) Oklab() Oklab { return oklabOfXYZ(c.xyz()) }

// xyz returns the colour's X, Y and Z, where Y of the display's white is 1.
func (c Lab) xyz() (x, y, z float64) {
	fy := (c.L + 16) / 116
	return WhiteX * labInverse(fy+c.A/500), labInverse(fy), WhiteZ * labInverse(fy-c.B/200)
}
