package propose

import (
	"iter"
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
	code, c, _ := settleAmong(c, p, nil)
	return code, c
}

// settleAmong does so among the codes that are wanted; nil wants all. found is false where
// none is near enough, not even to grey. Beside blue, where the gamut is a blade, less chroma
// may lie outside: what does is passed over.
func settleAmong(c colour.Oklab, p promise, wanted func(colour.RGB) bool) (code colour.RGB, made colour.Oklab, found bool) {
	for {
		code, miss := nearestCode(c, p, wanted)
		if miss <= 1 && c.InGamut() || !(c.Chroma() > 1e-3) {
			return code, c, miss <= 1
		}
		c = shine{c.A / c.L, c.B / c.L}.times(0.98).keeping(p)
	}
}

// nearestCode returns the 8-bit colour that keeps a promise best and stays nearest to c, the
// colour as made, which keeps it exactly: the best of the codes around it, looked for farther
// off where none of the next is good enough, and its miss. Plain rounding may miss the promise
// by half a code, which is up to half an L*.
//
// A neutral stays a grey where a grey keeps the promise. wanted, unless it is nil, says which
// codes may be taken.
func nearestCode(c colour.Oklab, p promise, wanted func(colour.RGB) bool) (code colour.RGB, miss float64) {
	if c.A == 0 && c.B == 0 {
		light := c.L * c.L * c.L // Oklab: all cones are alike
		v := colour.Encode(light)
		code = colour.RGB{R: v, G: v, B: v}
		miss = p.miss(code, colour.Lab{L: colour.Lightness(light)}, math.Inf(1))
		if miss <= 1 && (wanted == nil || wanted(code)) {
			return code, miss
		}
	}
	for reach := 1; reach <= 3; reach++ {
		if code, miss = p.nearestAround(c, reach, wanted); miss <= 1 {
			break
		}
	}
	return code, miss
}

// nearestAround returns the best code up to reach around a colour as made, and its miss:
// infinite if there is none. wanted, unless it is nil, says which codes may be taken.
func (p promise) nearestAround(made colour.Oklab, reach int, wanted func(colour.RGB) bool) (best colour.RGB, least float64) {
	red, green, blue := made.Light()
	lab := colour.LabOf(inside(red), inside(green), inside(blue))
	best = colour.RGB{R: colour.Encode(red), G: colour.Encode(green), B: colour.Encode(blue)}
	least = math.Inf(1)
	for near := range codesAround(best, reach) {
		if miss := p.miss(near, lab, least); miss < least && (wanted == nil || wanted(near)) {
			best, least = near, miss
		}
	}
	return best, least
}

// inside cuts linear light to 0 to 1.
func inside(light float64) float64 { return max(0, min(light, 1)) }

// codesAround yields the codes up to reach from a code in each channel, itself too.
func codesAround(c colour.RGB, reach int) iter.Seq[colour.RGB] {
	around := func(code uint8) (from, to int) { return max(int(code)-reach, 0), min(int(code)+reach, 255) }
	return func(yield func(colour.RGB) bool) {
		red, lastRed := around(c.R)
		for ; red <= lastRed; red++ {
			green, lastGreen := around(c.G)
			for ; green <= lastGreen; green++ {
				blue, lastBlue := around(c.B)
				for ; blue <= lastBlue; blue++ {
					if !yield(colour.RGB{R: uint8(red), G: uint8(green), B: uint8(blue)}) {
						return
					}
				}
			}
		}
	}
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
