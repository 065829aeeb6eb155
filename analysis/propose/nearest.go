package propose

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// How near an offered 8-bit colour stays to the colour as made: the promised quantity in
// L*, the colour in a*b*. A search over the neighbouring codes keeps both: at worst 0.19 and
// 0.94 over all hues, lightnesses and chromas.
const (
	promiseWithin = 0.2 // L* or seen lightness; a layer grey is kept exactly
	colourWithin  = 1.0 // distance in a*b*
)

// settle returns the 8-bit colour of c, a colour that keeps a promise exactly, and c itself.
// Where no code is near enough (one in a hundred thousand, dark and at the gamut's edge), c
// gives up a fiftieth of its saturation until one is.
func settle(c colour.Oklab, p promise) (colour.RGB, colour.Oklab) {
	for {
		code, miss := nearestCode(c, p)
		if miss <= 1 || !(c.Chroma() > 1e-3) {
			return code, c
		}
		c = shine{c.A / c.L, c.B / c.L}.times(0.98).keeping(p)
	}
}

// nearestCode returns the 8-bit colour that keeps a promise best and stays nearest to c, the
// colour as made, which keeps it exactly: the best of the codes around it, and its miss.
// Plain rounding may miss the promise by half a code, which is up to half an L*.
//
// A neutral stays a grey where a grey keeps the promise.
func nearestCode(c colour.Oklab, p promise) (colour.RGB, float64) {
	if c.A == 0 && c.B == 0 {
		return p.nearestGrey(c)
	}
	return p.nearestAround(c.Light())
}

// nearestGrey returns the grey that keeps the promise of a neutral, or, where the greys'
// steps are too wide for it, the nearest code beside them.
func (p promise) nearestGrey(c colour.Oklab) (colour.RGB, float64) {
	light := c.L * c.L * c.L // Oklab: all cones are alike
	lab := colour.Lab{L: colour.Lightness(light)}
	v := colour.Encode(light)
	grey := colour.RGB{R: v, G: v, B: v}
	if miss := p.miss(grey, lab, math.Inf(1)); miss <= 1 {
		return grey, miss
	}
	return p.nearestAround(light, light, light)
}

// nearestAround returns the best code around linear light: of the next codes of every channel,
// and from farther off where none of these is good enough.
func (p promise) nearestAround(red, green, blue float64) (colour.RGB, float64) {
	red, green, blue = inside(red), inside(green), inside(blue)
	lab := colour.LabOf(red, green, blue)
	code := colour.RGB{R: colour.Encode(red), G: colour.Encode(green), B: colour.Encode(blue)}
	for reach := 1; ; reach++ {
		best, least := code, math.Inf(1)
		r, g, b := around(code.R, reach), around(code.G, reach), around(code.B, reach)
		for i := r.from; i <= r.to; i++ {
			for j := g.from; j <= g.to; j++ {
				for k := b.from; k <= b.to; k++ {
					near := colour.RGB{R: uint8(i), G: uint8(j), B: uint8(k)}
					if miss := p.miss(near, lab, least); miss < least {
						best, least = near, miss
					}
				}
			}
		}
		if least <= 1 || reach == 3 {
			return best, least
		}
	}
}

// inside cuts linear light to 0 to 1.
func inside(light float64) float64 { return max(0, min(light, 1)) }

// codes is a range of 8-bit codes, both ends included.
type codes struct{ from, to int }

// around returns the codes up to reach from a code.
func around(code uint8, reach int) codes {
	return codes{max(int(code)-reach, 0), min(int(code)+reach, 255)}
}

// miss says how badly an 8-bit colour stands for the colour lab, of which p is promised: the
// greater of the two distances, each over its limit, so that up to 1 both are kept. It is
// infinite where the layer grey is not the same, or would round up or down by chance (a
// program may do either with a half). What is sure to miss by least or more is not looked at
// further.
func (p promise) miss(code colour.RGB, lab colour.Lab, least float64) float64 {
	r, g, b := colour.Linears[code.R], colour.Linears[code.G], colour.Linears[code.B]
	miss := 0.0
	switch p.by {
	case ByLightness:
		miss = math.Abs(colour.Lightness(colour.Luminance(r, g, b))-p.want) / promiseWithin
	case ByLayerGrey:
		hundredths := 30*int(code.R) + 59*int(code.G) + 11*int(code.B)
		if grey := (hundredths + 50) / 100; float64(grey) != p.want || hundredths%100 == 50 {
			return math.Inf(1)
		}
	}
	if miss >= least {
		return miss
	}
	got := colour.LabOf(r, g, b)
	switch p.by {
	case ByLayerGrey:
		miss = math.Abs(got.L-lab.L) / colourWithin
	case BySeenLightness:
		miss = math.Abs(colour.SeenLightness(got)-p.want) / promiseWithin
	}
	return max(miss, math.Hypot(got.A-lab.A, got.B-lab.B)/colourWithin)
}
