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
