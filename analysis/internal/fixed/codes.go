package fixed

import (
	"math"
	"sync"

	"app.tonedesk/analysis/colour"
)

// Codes are the tables of the 8-bit codes of one colour space. Passes over pixels cost the same
// in every space: only the tables are others.
type Codes struct {
	Bins   *Tables        // lightness
	Light  *LightTables   // the space's own linear light
	toSRGB *[3][3]float64 // of the space's own light; nil: it is sRGB

	space *colour.Space
	once  sync.Once
	deep  *Deep // nil: not asked for yet
}

var srgbCodes = Codes{Bins: Bins, Light: ReduceTables}

// CodesOf returns the tables of a space; nil is sRGB. They are made once a space.
func CodesOf(s *colour.Space) *Codes {
	if s == nil || s == colour.SRGB {
		return &srgbCodes
	}
	return s.Keep(func() any {
		c := &Codes{Bins: newTables(s, Bins), Light: newLightTables(s), toSRGB: new([3][3]float64), space: s}
		c.toSRGB[0][0], c.toSRGB[1][0], c.toSRGB[2][0] = s.Light(1, 0, 0)
		c.toSRGB[0][1], c.toSRGB[1][1], c.toSRGB[2][1] = s.Light(0, 1, 0)
		c.toSRGB[0][2], c.toSRGB[1][2], c.toSRGB[2][2] = s.Light(0, 0, 1)
		return c
	}).(*Codes)
}

// InSRGB turns light of the space, 0 to LinearWhite, into light of sRGB, in place. What sRGB can't
// show goes toward the grey of the same luminance until it can: lightness stays, to the rounding;
// chroma ends where sRGB does.
func (c *Codes) InSRGB(light []uint16) {
	m := c.toSRGB
	if m == nil || light[0] == light[1] && light[1] == light[2] {
		return
	}
	r, g, b := float64(light[0]), float64(light[1]), float64(light[2])
	own := [3]float64{
		m[0][0]*r + m[0][1]*g + m[0][2]*b,
		m[1][0]*r + m[1][1]*g + m[1][2]*b,
		m[2][0]*r + m[2][1]*g + m[2][2]*b,
	}
	y, part := colour.Luminance(own[0], own[1], own[2]), 1.0
	for _, v := range own {
		switch {
		case v < 0:
			part = min(part, y/(y-v))
		case v > LinearWhite:
			part = min(part, (LinearWhite-y)/(v-y))
		}
	}
	part = max(part, 0)
	for i, v := range own {
		light[i] = uint16(math.Round(max(0, min(y+part*(v-y), LinearWhite))))
	}
}

// SRGB returns the 8-bit sRGB code of a colour of the space, brought into sRGB as InSRGB does.
func (c *Codes) SRGB(code colour.RGB) colour.RGB {
	if c.toSRGB == nil {
		return code
	}
	t := c.Light
	light := [3]uint16{uint16(t.Red[code.R]), uint16(t.Green[code.G] >> SumBits), uint16(t.Blue[code.B] >> (2 * SumBits))}
	c.InSRGB(light[:])
	return colour.RGB{R: CodeOf(light[0]), G: CodeOf(light[1]), B: CodeOf(light[2])}
}
