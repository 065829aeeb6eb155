package analysis

import "math"

// Lab is a colour in CIE 1976 L*a*b*, relative to the display's white (D65).
type Lab struct{ L, A, B float64 }

// Chroma returns C*ab. Source: CIE15.
func (c Lab) Chroma() float64 { return math.Hypot(c.A, c.B) }

// Hue returns hab in degrees, [0, 360). It means nothing for a neutral. Source: CIE15.
func (c Lab) Hue() float64 { return degrees(c.B, c.A) }

// degrees returns the angle of (x, y) in [0, 360).
func degrees(y, x float64) float64 {
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
	whiteX = 0.3127 / 0.3290
	whiteZ = (1 - 0.3127 - 0.3290) / 0.3290
)

// XYZOf returns CIE XYZ, relative to D65 with Y = 1, of linear red, green and blue.
// Source: CSS4, exact fractions.
func XYZOf(red, green, blue float64) (x, y, z float64) {
	x = 506752.0/1228815*red + 87881.0/245763*green + 12673.0/70218*blue
	y = Luminance(red, green, blue)
	z = 7918.0/409605*red + 87881.0/737289*green + 1001167.0/1053270*blue
	return
}

// LabOf returns the L*a*b* of linear red, green and blue. Source: CIE15.
func LabOf(red, green, blue float64) Lab {
	x, y, z := XYZOf(red, green, blue)
	fx, fy, fz := labF(x/whiteX), labF(y), labF(z/whiteZ)
	return Lab{L: 116*fy - 16, A: 500 * (fx - fy), B: 200 * (fy - fz)}
}

func labF(t float64) float64 {
	if t > cieEpsilon {
		return math.Cbrt(t)
	}
	return (cieKappa*t + 16) / 116
}
