package analysis

import (
	"math"
	"sync"
)

// Hue without its lightness: every pixel at one lightness, with its own hue (hab) and its own
// chroma (C*ab), or as much of it as the display can show there. Neutrals are all one grey.
var hueView = View{Key: "hue", Name: "Hue alone", Paint: paintHue}

// hueLightness is the L* of every pixel: where the display has about as much chroma for all
// hues together as anywhere (a C*ab of 64 on average, of 34 at least).
const hueLightness = 60

func paintHue(dst []byte, src *Reduced, _ Look) {
	paintSpans(dst, src, hueColours(), func(dst []byte, linear []uint16, colours *hueTable) {
		for len(linear) >= 3 && len(dst) >= pixelBytes {
			c := colours.of(labPixelOf(linear[:3]))
			dst[0], dst[1], dst[2], dst[3] = c.R, c.G, c.B, 255
			linear, dst = linear[3:], dst[pixelBytes:]
		}
	})
}

// The display's a* and b* in half steps, with some room: from -90 to 102 and from -112 to 98.
const (
	hueCells         = 2
	leastA, columnsA = -90, 192 * hueCells
	leastB, columnsB = -112, 210 * hueCells
)

// hueTable holds the colour to paint for every a* and b*, each within 0.25 of the pixel's.
type hueTable [columnsA * columnsB]RGB

func (t *hueTable) of(p labPixel) RGB {
	const half = labUnit / 2
	a := (int64(p.a)*(500*hueCells)+half)>>labBits - leastA*hueCells
	b := (int64(p.b)*(200*hueCells)+half)>>labBits - leastB*hueCells
	return t[a*columnsB+b]
}

var hueColours = sync.OnceValue(func() *hueTable {
	most := mostChroma(hueLightness)
	t := new(hueTable)
	for i := range t {
		a := float64(i/columnsB)/hueCells + leastA
		b := float64(i%columnsB)/hueCells + leastB
		c := Lab{hueLightness, a, b}
		if chroma := c.Chroma(); chroma > 0 {
			part := min(1, most.at(c.Hue())/chroma)
			c.A, c.B = part*a, part*b
		}
		t[i] = codeOfLight(c.Light())
	}
	return t
})

// codeOfLight returns the nearest 8-bit colour of linear light.
func codeOfLight(red, green, blue float64) RGB {
	code := func(light float64) uint8 {
		return codeOf(uint16(math.Round(linearWhite * max(0, min(light, 1)))))
	}
	return RGB{code(red), code(green), code(blue)}
}

// chromaLimits hold, for every half degree of hab from 0 to 360, how much C*ab the display
// can show at one lightness.
type chromaLimits [2*360 + 1]float64

func mostChroma(lightness float64) *chromaLimits {
	const beyond = 150 // the display ends at 134
	limits := new(chromaLimits)
	for i := range limits {
		sin, cos := math.Sincos(float64(i) / 2 * math.Pi / 180)
		limits[i] = beyond * bisect(func(part float64) bool {
			r, g, b := Lab{lightness, beyond * part * cos, beyond * part * sin}.Light()
			return min(r, g, b) >= 0 && max(r, g, b) <= 1
		})
	}
	return limits
}

// at returns the limit of a hue, in degrees from 0 up to 360.
func (l *chromaLimits) at(hue float64) float64 {
	i := min(int(2*hue), len(l)-2)
	return l[i] + (2*hue-float64(i))*(l[i+1]-l[i])
}
