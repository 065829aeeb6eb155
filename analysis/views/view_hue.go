package views

import (
	"math"
	"sync"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// Hue without its lightness: every pixel at one lightness, with its own hue (hab) and its own
// chroma (C*ab), or as much of it as the display can show there. Neutrals are all one grey.
var hueView = View{Key: "hue", Name: "Hue alone", Paint: paintHue}

// hueLightness is the L* of every pixel: where the display has about as much chroma for all
// hues together as anywhere (a C*ab of 64 on average, of 34 at least).
const hueLightness = 60

func paintHue(dst []byte, src *reduce.Picture, _ Look) {
	reduce.Spans(dst, src, hueColours(), func(dst []byte, linear []uint16, colours *hueTable) {
		for len(linear) >= 3 && len(dst) >= analysis.PixelBytes {
			c := colours.of(fixed.LabOf(linear[:3]))
			dst[0], dst[1], dst[2], dst[3] = c.R, c.G, c.B, 255
			linear, dst = linear[3:], dst[analysis.PixelBytes:]
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
type hueTable [columnsA * columnsB]colour.RGB

func (t *hueTable) of(p fixed.Lab) colour.RGB {
	const half = fixed.LabUnit / 2
	a := (int64(p.A)*(500*hueCells)+half)>>fixed.LabBits - leastA*hueCells
	b := (int64(p.B)*(200*hueCells)+half)>>fixed.LabBits - leastB*hueCells
	return t[a*columnsB+b]
}

var hueColours = sync.OnceValue(func() *hueTable {
	most := mostChroma(hueLightness)
	t := new(hueTable)
	for i := range t {
		a := float64(i/columnsB)/hueCells + leastA
		b := float64(i%columnsB)/hueCells + leastB
		c := colour.Lab{L: hueLightness, A: a, B: b}
		if chroma := c.Chroma(); chroma > 0 {
			part := min(1, most.at(c.Hue())/chroma)
			c.A, c.B = part*a, part*b
		}
		t[i] = codeOfLight(c.Light())
	}
	return t
})

// codeOfLight returns the nearest 8-bit colour of linear light.
func codeOfLight(red, green, blue float64) colour.RGB {
	code := func(light float64) uint8 {
		return fixed.CodeOf(uint16(math.Round(fixed.LinearWhite * max(0, min(light, 1)))))
	}
	return colour.RGB{R: code(red), G: code(green), B: code(blue)}
}

// chromaLimits hold, for every half degree of hab from 0 to 360, how much C*ab the display
// can show at one lightness.
type chromaLimits [2*360 + 1]float64

func mostChroma(lightness float64) *chromaLimits {
	const beyond = 150 // the display ends at 134
	limits := new(chromaLimits)
	for i := range limits {
		sin, cos := math.Sincos(float64(i) / 2 * math.Pi / 180)
		limits[i] = beyond * colour.Bisect(func(part float64) bool {
			r, g, b := colour.Lab{L: lightness, A: beyond * part * cos, B: beyond * part * sin}.Light()
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
