package colour

import "math"

// Steps is the length of the value scale: black is 0, white 10.
const Steps = 10

// YOfValue returns the relative luminance, 0 to 1, of a step of the ten-step value scale,
// with white being the display's. Steps below 0 (and NaN) count as 0, above 10 as 10.
// Source: D1535, whose quintic gives percent.
func YOfValue(value float64) float64 {
	if !(value > 0) {
		return 0
	}
	v := min(value, Steps)
	return quintic(v) / quintic(Steps)
}

// quintic is the polynomial of D1535, in percent; it is 100 at 10 within its five digits.
func quintic(v float64) float64 {
	return v * (1.1914 + v*(-0.22533+v*(0.23352+v*(-0.020484+v*0.00081939))))
}

func quinticSlope(v float64) float64 {
	return 1.1914 + v*(-2*0.22533+v*(3*0.23352+v*(-4*0.020484+v*5*0.00081939)))
}

// ValueOfY returns the step of the value scale, 0 to 10, of relative luminance, within
// 1e-9. Below 0 (and NaN) counts as 0, above 1 as 1. Source: D1535, inverted by Newton's
// method kept inside a bracket.
func ValueOfY(y float64) float64 {
	if !(y > 0) {
		return 0
	}
	want := min(y, 1) * quintic(Steps)
	low, high := 0.0, float64(Steps)
	v := Lightness(y) / 10 // within 0.11 of it
	for range 60 {
		miss := quintic(v) - want
		if miss > 0 {
			high = v
		} else {
			low = v
		}
		next := v - miss/quinticSlope(v)
		if !(next >= low && next <= high) {
			next = (low + high) / 2
		}
		if math.Abs(next-v) < 1e-12 {
			return next
		}
		v = next
	}
	return v
}

// Value returns the step of the value scale, 0 to 10, of a lightness L*.
func Value(lightness float64) float64 { return ValueOfY(LuminanceOf(lightness)) }

// FromWhite returns the same step counted from white: 0 is white, 10 is black.
func FromWhite(value float64) float64 { return Steps - value }
