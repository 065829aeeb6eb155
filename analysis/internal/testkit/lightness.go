package testkit

import "math"

// PlainLightness is CIE 1976 L* of an 8-bit sRGB colour, written out: IEC 61966-2-1:1999
// and CIE 15:2004, luminance weights from the primaries and D65 as in CSS Color 4.
func PlainLightness(linear *[256]float64, r, g, b int) float64 {
	y := 0.21263900587151027*linear[r] + 0.715168678767756*linear[g] + 0.07219231536073371*linear[b]
	if y <= 216.0/24389 {
		return 24389.0 / 27 * y
	}
	return 116*math.Cbrt(y) - 16
}

// PlainLinear is the linear light of every 8-bit code, written out: IEC 61966-2-1:1999.
func PlainLinear() *[256]float64 {
	linear := new([256]float64)
	for i := range linear {
		if e := float64(i) / 255; e <= 0.04045 {
			linear[i] = e / 12.92
		} else {
			linear[i] = math.Pow((e+0.055)/1.055, 2.4)
		}
	}
	return linear
}
