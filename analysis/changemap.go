package analysis

import (
	"image"
	"image/color"

	"app.tonedesk/analysis/colour"
)

// spans are the scales of a map of differences, in tones to either side.
var spans = []float64{1, 2, 3, 5, 10}

// Span returns the scale on which a map of the differences says most: the least of 1, 2, 3,
// 5 and 10 tones to either side that holds all but a hundredth of the altered pixels.
func (c *Change) Span() float64 {
	var counts [1001]int
	altered := 0
	for _, d := range c.difference {
		if away := max(int(d), -int(d)); d != notCounted && away > alteredFrom {
			counts[min(away, 1000)]++
			altered++
		}
	}
	within, away := 0, 0
	for _, span := range spans {
		for ; away <= int(100*span); away++ {
			within += counts[away]
		}
		if 100*within >= 99*altered {
			return span
		}
	}
	return spans[len(spans)-1]
}

// How what isn't counted is hatched: lines this far from each other, in pixels, of L* 25 on L* 50.
const (
	mapHatch = 8
	mapLine  = 0x3b
)

// Map is the differences of a Change as greys, an image that takes no memory of its own. No
// change is L* 50, black is darker by span tones or more, white lighter by as much, even steps
// of L* between. What isn't counted is hatched
// as in the mirror, without its veil.
type Map struct {
	change *Change
	greys  [2001]uint8
}

// Map returns the map of the differences up to span tones to either side.
func (c *Change) Map(span float64) *Map {
	m := &Map{change: c}
	for i := range m.greys {
		m.greys[i] = colour.GreyOf(50 + 50*max(-1, min(float64(i-1000)/100/span, 1)))
	}
	return m
}

// GreyAt returns the grey of a pixel.
func (m *Map) GreyAt(x, y int) uint8 {
	d := m.change.difference[y*m.change.Width+x]
	switch {
	case d != notCounted:
		return m.greys[max(0, min(int(d)+1000, 2000))]
	case (x+y)%mapHatch == 0:
		return mapLine
	}
	return m.greys[1000]
}

// Bounds, ColorModel, At and RGBA64At make it an image.
func (m *Map) Bounds() image.Rectangle { return image.Rect(0, 0, m.change.Width, m.change.Height) }
func (m *Map) ColorModel() color.Model { return color.GrayModel }
func (m *Map) At(x, y int) color.Color { return color.Gray{Y: m.GreyAt(x, y)} }
func (m *Map) RGBA64At(x, y int) color.RGBA64 {
	grey := 0x101 * uint16(m.GreyAt(x, y))
	return color.RGBA64{R: grey, G: grey, B: grey, A: 0xffff}
}
