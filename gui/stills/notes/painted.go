package notes

import (
	"image"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills/ink"
)

// Painted measures what is painted as light and as shadow on a picture. It keeps up with a
// brush: each stretch of a stroke costs what lies under it. A pixel counts if its centre is
// under the brush; one that is painted as both counts as neither. Not for concurrent use.
type Painted struct {
	picture analysis.Pixels
	sides   []uint8 // of four pixels each: bits of the sides; nil: nothing is painted
	patches [2]analysis.Patch
}

// The bits of Painted.sides.
const (
	lightBit  = 1
	shadowBit = 2
	bothBits  = 3
)

// Measured is what painted areas tell. Figures are NaN where a side has no pixels.
type Measured struct {
	Light, Shadow *analysis.Spot // means with their spread; nil for a side without pixels
	Tones         float64        // value of light minus value of shadow
	Overlap       float64        // tones: the shadow's lightest tenth above the light's darkest
}

// NewPainted begins with nothing painted. The picture must pass Check, and stay as it is.
func NewPainted(p analysis.Pixels) *Painted {
	return &Painted{picture: p}
}

// Set begins anew with the areas among notes.
func (m *Painted) Set(list []Note) {
	clear(m.sides)
	m.patches = [2]analysis.Patch{}
	for _, n := range list {
		if a, ok := n.Shape.(Area); ok {
			for i, p := range a.Points {
				m.Paint(a.Side, a.Points[max(i-1, 0)], p, a.Width)
			}
		}
	}
}

// Paint adds one stretch of a brush stroke, in still pixels.
func (m *Painted) Paint(side Side, from, to ink.Point, width float64) {
	bit := uint8(lightBit)
	if side == Shadow {
		bit = shadowBit
	}
	half := width / 2
	box := image.Rect(
		int(math.Floor(min(from.X, to.X)-half)), int(math.Floor(min(from.Y, to.Y)-half)),
		int(math.Ceil(max(from.X, to.X)+half)), int(math.Ceil(max(from.Y, to.Y)+half)),
	).Intersect(m.picture.Bounds())
	if m.sides == nil && !box.Empty() {
		m.sides = make([]uint8, (m.picture.Width*m.picture.Height+3)/4)
	}
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			at, shift := m.at(x, y)
			if *at>>shift&bit == 0 && ink.Pt(float64(x)+0.5, float64(y)+0.5).Distance(from, to) <= half {
				m.count(bit, x, y)
			}
		}
	}
}

// count gives a pixel to a side that it doesn't belong to yet.
func (m *Painted) count(bit uint8, x, y int) {
	at, shift := m.at(x, y)
	if other := *at >> shift & bothBits; other == 0 {
		m.patches[bit-1].Add(m.picture, x, y)
	} else {
		m.patches[other-1].Take(m.picture, x, y)
	}
	*at |= bit << shift
}

// at returns where the sides of a pixel stand: in a byte, from a bit on.
func (m *Painted) at(x, y int) (at *uint8, shift int) {
	i := y*m.picture.Width + x
	return &m.sides[i/4], i % 4 * 2
}

// Measure returns what is painted so far.
func (m *Painted) Measure() Measured {
	r := Measured{Tones: math.NaN(), Overlap: analysis.PatchOverlap(&m.patches[lightBit-1], &m.patches[shadowBit-1])}
	if s, ok := m.patches[lightBit-1].Spot(); ok {
		r.Light = &s
	}
	if s, ok := m.patches[shadowBit-1].Spot(); ok {
		r.Shadow = &s
	}
	if r.Light != nil && r.Shadow != nil {
		r.Tones = r.Light.Value - r.Shadow.Value
	}
	return r
}
