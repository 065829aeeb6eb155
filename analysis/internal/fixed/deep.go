package fixed

import (
	"math"
	"sync"

	"app.tonedesk/analysis/colour"
)

// DeepWhite is the greatest number of a channel of 16 bits.
const DeepWhite = 65535

// Deep are the tables of the 16-bit codes of one colour space. 257 times an 8-bit code is
// exactly that code.
type Deep struct {
	Linear [3]*[DeepWhite + 1]float64 // the space's own linear light, by red, green, blue
	share  [3]*[DeepWhite + 1]uint32  // light of a channel's code; sums to White
	bins   *Tables
}

// Deep returns the tables of 16-bit codes, which are made when they are first asked for.
func (c *Codes) Deep() *Deep {
	c.once.Do(func() { c.deep = newDeep(c) })
	return c.deep
}

func newDeep(c *Codes) *Deep {
	d, s := &Deep{bins: c.Bins}, c.space
	for channel, weight := range [3]float64{s.Luminance(1, 0, 0), s.Luminance(0, 1, 0), s.Luminance(0, 0, 1)} {
		linear, share := new([DeepWhite + 1]float64), new([DeepWhite + 1]uint32)
		for code := range linear {
			linear[code] = within(s.LinearOf(channel, float64(code)/DeepWhite))
			share[code] = uint32(math.Round(White * weight * linear[code]))
		}
		d.Linear[channel], d.share[channel] = linear, share
	}
	return d
}

// within brings light to 0 to 1, which a curve is held to at its 8-bit codes alone.
func within(light float64) float64 {
	if !(light > 0) { // so that NaN is none
		return 0
	}
	return min(light, 1)
}

// PlacesPerBin is how many places a bin of lightness has: they lie 0.0004 L* apart, and the
// least step of a grey of 16 bits is three of them.
const PlacesPerBin = 1024

// PlaceOf returns the bin of a 16-bit colour's lightness, and the place of that lightness:
// PlacesPerBin for each bin, counted from black, rounded to nearest and in that bin.
func (d *Deep) PlaceOf(c [3]uint16) (bin uint8, place int) {
	light := d.share[0][c[0]] + d.share[1][c[1]] + d.share[2][c[2]]
	bin = d.bins.Steps.Of(light)
	places := lightPlaces()
	step, part := light>>stepBits, float64(light&(1<<stepBits-1))/(1<<stepBits)
	place = int(math.Round(places[step] + part*(places[step+1]-places[step])))
	middle := PlacesPerBin * int(bin)
	return bin, max(middle-PlacesPerBin/2, min(place, middle+PlacesPerBin/2-1))
}

// stepBits are the bits of light between two steps at which lightPlaces has it.
const stepBits = LightBits - 16

// lightPlaces holds the place of the lightness, not rounded, at equal steps of light: straight in
// between it is within 0.00001 L*.
var lightPlaces = sync.OnceValue(func() *[1<<16 + 2]float64 {
	t := new([1<<16 + 2]float64)
	for i := range t {
		t[i] = PlacesPerBin * colour.BinsPerLightness * colour.Lightness(float64(i)/(1<<16))
	}
	return t
})
