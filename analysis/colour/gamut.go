package colour

// GamutSlack is how far linear light may lie outside of 0 to 1 and still count as inside:
// the last digits of the matrices.
const GamutSlack = 1e-9

// Halvings is how often a bisection halves: 2^-40 is far below what 8 bits can show.
const Halvings = 40

// InGamut reports whether the display (sRGB) can show the colour.
func (c Oklab) InGamut() bool {
	r, g, b := c.Light()
	return min(r, g, b) >= -GamutSlack && max(r, g, b) <= 1+GamutSlack
}

// IntoGamut returns the colour with as much of its chroma as the display can show at its
// Oklab lightness and hue, which it keeps exactly. A lightness of 1 and more gives white,
// of 0 and less (and NaN) black.
//
// It reduces chroma only: the local clip of CSS4's method, which moves lightness and hue,
// is left out on purpose. Beside blue, from hue 264.05 to 264.21, the gamut is a thin blade
// that bends; there the part nearer to grey counts, so that neighbours stay neighbours.
func IntoGamut(c Oklab) Oklab {
	switch {
	case !(c.L > 0):
		return Oklab{}
	case c.L >= 1:
		return Oklab{L: 1}
	case c.InGamut():
		return c
	}
	part := Bisect(func(part float64) bool { return Oklab{c.L, part * c.A, part * c.B}.InGamut() })
	return Oklab{c.L, part * c.A, part * c.B}
}

// Bisect returns a number in [0, 1] at which holds ends, from the side where it holds. It
// is taken to hold at 0.
func Bisect(holds func(part float64) bool) float64 {
	if holds(1) {
		return 1
	}
	in, out := 0.0, 1.0
	for range Halvings {
		middle := (in + out) / 2
		if holds(middle) {
			in = middle
		} else {
			out = middle
		}
	}
	return in
}
