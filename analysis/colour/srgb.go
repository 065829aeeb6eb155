package colour

import "math"

// Shares of the linear channels in relative luminance: the middle row of the matrix from
// linear sRGB to XYZ (CSS4, exact fractions).
const (
	RedLuminance   = 87098.0 / 409605
	GreenLuminance = 175762.0 / 245763
	BlueLuminance  = 12673.0 / 175545
)

// Linears holds the linear light of each 8-bit code.
var Linears = func() (t [256]float64) {
	for code := range t {
		t[code] = LinearOf(float64(code) / 255)
	}
	return t
}()

// Linear returns the linear light, 0 to 1, of an 8-bit sRGB code. Source: SRGB.
func Linear(code uint8) float64 { return Linears[code] }

// LinearOf returns the linear light of an encoded sRGB component. Both are 1 at the
// display's white and 0 at black; below 0 (and NaN) counts as 0. Source: SRGB.
func LinearOf(encoded float64) float64 {
	switch {
	case !(encoded > 0):
		return 0
	case encoded <= 0.04045:
		return encoded / 12.92
	}
	return math.Pow((encoded+0.055)/1.055, 2.4)
}

// EncodedOf returns the encoded sRGB component, 0 to 1, of linear light. Light below 0
// (and NaN) counts as 0, above 1 as 1. Source: SRGB.
func EncodedOf(linear float64) float64 {
	switch {
	case !(linear > 0):
		return 0
	case linear <= 0.0031308:
		return 12.92 * linear
	}
	return 1.055*math.Pow(min(linear, 1), 1/2.4) - 0.055
}

// Encode returns the nearest 8-bit sRGB code of linear light.
func Encode(linear float64) uint8 { return uint8(math.Round(255 * EncodedOf(linear))) }

// Luminance returns the relative luminance, 1 for the display's white, of linear red,
// green and blue. Source: CSS4.
func Luminance(red, green, blue float64) float64 {
	return RedLuminance*red + GreenLuminance*green + BlueLuminance*blue
}
