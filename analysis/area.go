package analysis

import (
	"encoding/binary"
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// edgeRange is the range of L* within a spot's square, as printed, beyond which the spot is
// said to lie on an edge: half a tone, so that a verdict would call the square's lightest
// and darkest pixel apart (common practice, no source).
const edgeRange = closeUpTo

// areaSum adds up the pixels of an area, always in the same order, a run of one colour at
// a time.
type areaSum struct {
	space            *colour.Space
	count            int
	red, green, blue float64 // the space's own linear light
	low, high        float64 // relative luminance

	// Lightness is summed up as its distance from the first pixel's, so that an even area's
	// small spread isn't lost in large squares.
	first, away, square float64

	deep   bool      // of 16 bits a channel
	colour [3]uint16 // of the last run: its 8-bit or 16-bit code
	mixed  bool      // not all pixels are of one colour
}

// OpaqueWord is set in the words of BGRX pixels: the meaningless byte becomes alpha 255.
const OpaqueWord = 0xff000000

// sumOf adds up the pixels that are not transparent.
func sumOf(p Pixels) (a areaSum) {
	if a.space = p.Space; p.Rest != nil {
		a.addDeep(&p)
		return a
	}
	opaque := uint32(0)
	if p.Layout == BGRX {
		opaque = OpaqueWord
	}
	word, run := uint32(0), 0 // a transparent pixel
	for y := range p.Height {
		for row := p.Row(y); len(row) >= PixelBytes; row = row[PixelBytes:] {
			w := binary.LittleEndian.Uint32(row) | opaque
			if w != word {
				a.add(word, run, p.Layout)
				word, run = w, 0
			}
			run++
		}
	}
	a.add(word, run, p.Layout)
	return a
}

// add adds run pixels, given as the four bytes of one.
func (a *areaSum) add(word uint32, run int, layout Layout) {
	if word>>24 == 0 || run == 0 {
		return
	}
	c := [3]uint16{uint16(word & 255), uint16(word >> 8 & 255), uint16(word >> 16 & 255)}
	if layout == BGRX {
		c[0], c[2] = c[2], c[0]
	}
	linears := a.space.Linears()
	a.addLight(c, run, linears[0][c[0]], linears[1][c[1]], linears[2][c[2]])
}

// addDeep adds the pixels of a picture of 16 bits a channel that are not transparent.
func (a *areaSum) addDeep(p *Pixels) {
	a.deep = true
	linear := &fixed.CodesOf(p.Space).Deep().Linear
	for y := range p.Height {
		for x := range p.Width {
			if _, _, _, counted := p.At(x, y); counted {
				c := p.deepAt(x, y)
				a.addLight(c, 1, linear[0][c[0]], linear[1][c[1]], linear[2][c[2]])
			}
		}
	}
}

// addLight adds run pixels of a colour, given as its code and its light.
func (a *areaSum) addLight(c [3]uint16, run int, red, green, blue float64) {
	y := a.space.Luminance(red, green, blue)
	l := nearLightness(y)
	if a.count == 0 {
		a.colour, a.first, a.low, a.high = c, l, y, y
	} else if c != a.colour {
		a.colour, a.mixed = c, true
		a.low, a.high = min(a.low, y), max(a.high, y)
	}
	n, away := float64(run), l-a.first
	a.count += run
	a.red += n * red
	a.green += n * green
	a.blue += n * blue
	a.away += n * away
	a.square += n * away * away
}

// spot reads the mean, all but its hue.
func (a *areaSum) spot() Spot {
	if !a.mixed { // as the colour itself, to the last digit
		var s Spot
		if a.deep {
			s = spotOfDeep(a.space, a.colour)
		} else {
			s = SpotOfCodeIn(a.space, colour.RGB{R: uint8(a.colour[0]), G: uint8(a.colour[1]), B: uint8(a.colour[2])})
		}
		s.Pixels = a.count
		return s
	}
	n := float64(a.count)
	s := spotIn(a.space, a.red/n, a.green/n, a.blue/n)
	away := a.away / n
	s.Spread = math.Sqrt(max(0, a.square/n-away*away))
	s.Low, s.High, s.Pixels = colour.Lightness(a.low), colour.Lightness(a.high), a.count
	s.OnEdge = AsPrinted(s.High-s.Low) > edgeRange
	return s
}

// nearSteps is how finely lightnesses is cut.
const nearSteps = 4096

// lightnesses holds L* at equal steps of luminance.
var lightnesses = func() (t [nearSteps + 2]float64) {
	for i := range t {
		t[i] = colour.Lightness(float64(i) / nearSteps)
	}
	return t
}()

// nearLightness is Lightness within 0.001 for luminance from 0 to 1, many times as fast.
func nearLightness(y float64) float64 {
	step := y * nearSteps
	i := int(step)
	return lightnesses[i] + (step-float64(i))*(lightnesses[i+1]-lightnesses[i])
}
