package analysis

import (
	"errors"
	"fmt"
	"image"
	"math"

	"app.tonedesk/analysis/colour"
)

// ErrOutside says that a spot lies outside of the picture, or has no counted pixel.
var ErrOutside = errors.New("outside the picture")

// ErrSize says that a spot's square has a side that isn't offered.
var ErrSize = errors.New("side of the square must be 1, 3, 5 or 11 pixels")

// Spot is the reading of a colour or of a sampled place. Everything but Colour comes from
// the mean in linear light as it is, not from its 8-bit code.
type Spot struct {
	Colour        colour.RGB `json:"colour"`         // nearest 8-bit sRGB code; beyond sRGB cut to its ends
	Lightness     float64    `json:"lightness"`      // L*, 0 to 100
	Value         float64    `json:"value"`          // 0 to 10
	LayerGrey     float64    `json:"layer_grey"`     // 0 to 255, not rounded, in the picture's own space
	OKLightness   float64    `json:"ok_lightness"`   // 0 to 1
	SeenLightness float64    `json:"seen_lightness"` // 0 to about 125
	Chroma        float64    `json:"chroma"`         // C*ab
	Hue           *float64   `json:"hue"`            // hab, degrees; nil where Colour is neutral

	X    *int `json:"x,omitempty"` // of a spot in a picture, pixels
	Y    *int `json:"y,omitempty"`
	Size *int `json:"size,omitempty"` // side of its square

	Space     *colour.Space `json:"-"` // of LayerGrey; nil: sRGB
	Lab       colour.Lab    `json:"-"`
	Oklab     colour.Oklab  `json:"-"`
	Spread    float64       `json:"-"` // standard deviation of L* over the square or area
	Low, High float64       `json:"-"` // least and greatest L* there
	OnEdge    bool          `json:"-"` // the square is not uniform: see edgeRange
	Pixels    int           `json:"-"` // how many were averaged; 0 for a colour
}

// SpotOf returns the reading of a colour.
func SpotOf(c colour.RGB) Spot {
	s := SpotOfCode(c)
	s.PointAtHue()
	return s
}

// ReadSpot averages the square of size 1, 3, 5 or 11 pixels around (x, y), as far as it
// lies in the picture, in linear light. Transparent pixels don't count. The error wraps
// ErrSize, ErrOutside or ErrPixels.
func ReadSpot(p Pixels, x, y, size int) (Spot, error) {
	if size != 1 && size != 3 && size != 5 && size != 11 {
		return Spot{}, fmt.Errorf("spot of size %d: %w", size, ErrSize)
	}
	at := image.Pt(x, y)
	if !at.In(p.Bounds()) {
		return Spot{}, fmt.Errorf("spot at %d,%d: %w", x, y, ErrOutside)
	}
	corner := at.Sub(image.Pt(size/2, size/2))
	s, err := readArea(p, image.Rectangle{Min: corner, Max: corner.Add(image.Pt(size, size))})
	if err != nil {
		return Spot{}, fmt.Errorf("spot at %d,%d: %w", x, y, err)
	}
	// What a spot points at lies in one piece of memory: it is read with every frame.
	pin := &struct {
		x, y, size int
		hue        float64
	}{x, y, size, s.Lab.Hue()}
	s.X, s.Y, s.Size = &pin.x, &pin.y, &pin.size
	if !s.Colour.Neutral() {
		s.Hue = &pin.hue
	}
	return s, nil
}

// ReadArea averages an area, as far as it lies in the picture, in linear light.
// Transparent pixels don't count. The error wraps ErrOutside or ErrPixels.
func ReadArea(p Pixels, area image.Rectangle) (Spot, error) {
	s, err := readArea(p, area.Canon())
	if err != nil {
		return Spot{}, err
	}
	s.PointAtHue()
	return s, nil
}

// readArea reads all of a spot but its hue and place.
func readArea(p Pixels, area image.Rectangle) (Spot, error) {
	if err := p.Check(); err != nil {
		return Spot{}, fmt.Errorf("area %v: %w", area, err)
	}
	sum := sumOf(p.Crop(area))
	if sum.count == 0 {
		return Spot{}, fmt.Errorf("area %v: %w", area, ErrOutside)
	}
	return sum.spot(), nil
}

// PointAtHue sets Hue, unless the colour is neutral.
func (s *Spot) PointAtHue() {
	if !s.Colour.Neutral() {
		hue := s.Lab.Hue()
		s.Hue = &hue
	}
}

// SpotOfCode reads an 8-bit sRGB colour.
func SpotOfCode(c colour.RGB) Spot { return SpotOfCodeIn(nil, c) }

// SpotOfCodeIn reads an 8-bit colour of a space.
func SpotOfCodeIn(space *colour.Space, c colour.RGB) Spot {
	s := SpotOfLight(space.LightOfCode(c))
	s.Space = space
	s.LayerGrey = colour.LayerGrey(float64(c.R), float64(c.G), float64(c.B)) // exact: no way there and back
	s.Low, s.High = s.Lightness, s.Lightness
	return s
}

// spotIn reads the own linear light of a space.
func spotIn(space *colour.Space, red, green, blue float64) Spot {
	s := SpotOfLight(space.Light(red, green, blue))
	if space != nil {
		s.Space = space
		s.LayerGrey = 255 * colour.LayerGrey(space.EncodedOf(0, red), space.EncodedOf(1, green), space.EncodedOf(2, blue))
	}
	return s
}

// SpotOfLight reads linear light of sRGB's primaries. What sRGB can't show lies under 0 or above 1.
func SpotOfLight(red, green, blue float64) Spot {
	r, g, b := 255*colour.EncodedOf(red), 255*colour.EncodedOf(green), 255*colour.EncodedOf(blue)
	y := colour.Luminance(red, green, blue)
	lab, ok := colour.LabOf(red, green, blue), colour.OklabOf(red, green, blue)
	if red == green && green == blue { // a neutral has no chroma, not even in the last digits
		lab, ok = colour.Lab{L: colour.Lightness(y)}, colour.Oklab{L: math.Cbrt(y)}
	}
	return Spot{
		Colour:        colour.RGB{R: uint8(math.Round(r)), G: uint8(math.Round(g)), B: uint8(math.Round(b))},
		Lightness:     colour.Lightness(y),
		Value:         colour.ValueOfY(y),
		LayerGrey:     colour.LayerGrey(r, g, b),
		OKLightness:   ok.L,
		SeenLightness: colour.SeenLightness(lab),
		Chroma:        lab.Chroma(),
		Lab:           lab,
		Oklab:         ok,
	}
}

// SeenHint says in how far a colour looks lighter than its grey.
type SeenHint uint8

const (
	SeenAlike   SeenHint = iota // by less than 3
	SeenLittle                  // looks a little lighter
	SeenClearly                 // looks clearly lighter
)

// From how much added lightness a hint is given (common practice, no source).
const (
	seenLittleFrom  = 3
	seenClearlyFrom = 8
)

// SeenHint returns the hint for a spot, from the added lightness as printed.
func (s Spot) SeenHint() SeenHint {
	switch added := AsPrinted(s.SeenLightness - s.Lightness); {
	case added >= seenClearlyFrom:
		return SeenClearly
	case added >= seenLittleFrom:
		return SeenLittle
	}
	return SeenAlike
}
