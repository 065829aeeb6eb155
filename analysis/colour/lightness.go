package colour

import "math"

const (
	cieEpsilon = 216.0 / 24389 // (6/29)³, relative luminance; L* is 8 here (CIE15)
	cieKappa   = 24389.0 / 27  // (29/3)³, L* per relative luminance below it (CIE15)
)

// Lightness returns the CIE 1976 lightness L*, 0 to 100, of relative luminance, where 1
// is the display's white. Below 0 (and NaN) counts as 0, above 1 as 1. Source: CIE15.
func Lightness(luminance float64) float64 {
	switch {
	case !(luminance > 0):
		return 0
	case luminance <= cieEpsilon:
		return cieKappa * luminance
	}
	return 116*math.Cbrt(min(luminance, 1)) - 16
}

// LuminanceOf returns the relative luminance, 0 to 1, of a lightness L*. Below 0 (and NaN)
// counts as 0, above 100 as 100. Source: CIE15.
func LuminanceOf(lightness float64) float64 {
	switch {
	case !(lightness > 0):
		return 0
	case lightness <= 8:
		return lightness / cieKappa
	}
	f := (min(lightness, 100) + 16) / 116
	return f * f * f
}

// GreyOf returns the 8-bit sRGB grey whose lightness is nearest to L*. Two greys that are
// equally near give the darker one. Below 0 (and NaN) counts as 0, above 100 as 100.
func GreyOf(lightness float64) uint8 {
	lightness = max(0, min(lightness, 100)) // far outside, all greys would be equally near
	code := Encode(LuminanceOf(lightness))
	best, least := code, math.Inf(1)
	for c := max(int(code)-1, 0); c <= min(int(code)+1, 255); c++ {
		if d := math.Abs(Lightness(Linears[c]) - lightness); d < least {
			best, least = uint8(c), d
		}
	}
	return best
}
