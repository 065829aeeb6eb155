package analysis

import (
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// Patch adds up picked pixels of a picture, one at a time, and takes them off again, as
// where an area is painted by hand. It counts in whole numbers: what it tells doesn't
// depend on the order. Its zero value is empty. Not for concurrent use.
type Patch struct {
	pixels           uint64
	space            *colour.Space // of all pixels
	red, green, blue uint64        // its own linear light, in 1/White
	lightness        uint64        // in 1/patchLightness of L*
	squares          uint64
	histogram        [256]uint64 // by bin of lightness
}

// patchLightness is how finely the lightness of a pixel is counted: what is lost is under
// 0.001 L*, and the squares of a hundred million pixels still fit 64 bits.
const patchLightness = 1024

// Add adds pixel x, y of the picture, which must pass Check and be of the same space as those before. Outside the picture, and where
// the pixel is fully transparent, there is nothing to add.
func (a *Patch) Add(p Pixels, x, y int) { a.count(p, x, y, 1) }

// Take takes off a pixel that was added before.
func (a *Patch) Take(p Pixels, x, y int) { a.count(p, x, y, math.MaxUint64) } // -1: sums wrap back

func (a *Patch) count(p Pixels, x, y int, n uint64) {
	if _, _, _, counted := p.At(x, y); !counted {
		return
	}
	a.pixels += n
	red, green, blue := p.lightAt(x, y)
	a.space = p.Space
	a.red += n * wholeLight(red)
	a.green += n * wholeLight(green)
	a.blue += n * wholeLight(blue)
	l := uint64(math.Round(patchLightness * nearLightness(p.Space.Luminance(red, green, blue))))
	a.lightness += n * l
	a.squares += n * l * l
	a.histogram[p.Bin(x, y)] += n
}

// wholeLight returns linear light in 1/White.
func wholeLight(light float64) uint64 { return uint64(math.Round(fixed.White * light)) }

// Spot returns the mean in linear light, with Spread (standard deviation of L*), Low and
// High (L*, by the bins of a histogram) and Pixels; false if there are no pixels.
func (a *Patch) Spot() (Spot, bool) {
	if a.pixels == 0 {
		return Spot{}, false
	}
	n := float64(a.pixels)
	s := spotIn(a.space, float64(a.red)/n/fixed.White, float64(a.green)/n/fixed.White, float64(a.blue)/n/fixed.White)
	mean := float64(a.lightness) / n
	s.Spread = math.Sqrt(max(0, float64(a.squares)/n-mean*mean)) / patchLightness
	s.Low, s.High, s.Pixels = a.reaching(0, false), a.reaching(0, true), int(a.pixels)
	s.PointAtHue()
	return s, true
}

// reaching returns the lightness of the bin at which the share of the pixels up to and with
// it, counted from black or from white, reaches share, 0 to 1, of all; NaN if there are none.
func (a *Patch) reaching(share float64, fromWhite bool) float64 {
	counted := uint64(0)
	for bin := range a.histogram {
		if fromWhite {
			bin = 255 - bin
		}
		n := a.histogram[bin]
		counted += n
		if n > 0 && float64(counted) >= share*float64(a.pixels) {
			return colour.LightnessOfBins(bin, 1)
		}
	}
	return math.NaN()
}

// tenth is the share of a side that its overlap with the other is judged by.
const tenth = 0.1

// PatchOverlap returns by how many tones the shadow's lightest tenth lies above the light's
// darkest tenth: positive where they overlap; NaN if either is empty.
func PatchOverlap(light, shadow *Patch) float64 {
	if light.pixels == 0 || shadow.pixels == 0 {
		return math.NaN()
	}
	return colour.Value(shadow.reaching(tenth, true)) - colour.Value(light.reaching(tenth, false))
}
