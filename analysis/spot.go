package analysis

import (
	"errors"
	"fmt"
	"image"
	"math"
)

// edgeRange is the range of L* within a spot's square from which it is said to lie on an
// edge: half a tone (common practice, no source).
const edgeRange = 5.0

// ErrOutside says that a spot lies outside of the picture, or has no counted pixel.
var ErrOutside = errors.New("outside the picture")

// ErrSize says that a spot's square has a side that isn't offered.
var ErrSize = errors.New("side of the square must be 1, 3, 5 or 11 pixels")

// Spot is the reading of a colour or of a sampled place. Everything but Colour comes from
// the mean in linear light as it is, not from its 8-bit code.
type Spot struct {
	Colour        RGB      `json:"colour"`         // nearest 8-bit sRGB code
	Lightness     float64  `json:"lightness"`      // L*, 0 to 100
	Value         float64  `json:"value"`          // 0 to 10
	LayerGrey     float64  `json:"layer_grey"`     // 0 to 255, not rounded
	OKLightness   float64  `json:"ok_lightness"`   // 0 to 1
	SeenLightness float64  `json:"seen_lightness"` // 0 to about 125
	Chroma        float64  `json:"chroma"`         // C*ab
	Hue           *float64 `json:"hue"`            // hab, degrees; nil where Colour is neutral

	X    *int `json:"x,omitempty"` // of a spot in a picture, pixels
	Y    *int `json:"y,omitempty"`
	Size *int `json:"size,omitempty"` // side of its square

	Lab       Lab     `json:"-"`
	Oklab     Oklab   `json:"-"`
	Spread    float64 `json:"-"` // standard deviation of L* over the square or area
	Low, High float64 `json:"-"` // least and greatest L* there
	OnEdge    bool    `json:"-"` // the square is not uniform: its L* spans 5 or more
	Pixels    int     `json:"-"` // how many were averaged; 0 for a colour
}

// SpotOf returns the reading of a colour.
func SpotOf(c RGB) Spot {
	s := spotOfLight(linears[c.R], linears[c.G], linears[c.B])
	s.Low, s.High = s.Lightness, s.Lightness
	return s
}

// spotOfLight reads linear light.
func spotOfLight(red, green, blue float64) Spot {
	r, g, b := 255*EncodedOf(red), 255*EncodedOf(green), 255*EncodedOf(blue)
	lab, ok := LabOf(red, green, blue), OklabOf(red, green, blue)
	s := Spot{
		Colour:    RGB{uint8(math.Round(r)), uint8(math.Round(g)), uint8(math.Round(b))},
		Lightness: Lightness(Luminance(red, green, blue)),
		LayerGrey: LayerGrey(r, g, b),
		Lab:       lab,
		Oklab:     ok,
	}
	s.Value = ValueOfY(Luminance(red, green, blue))
	s.OKLightness, s.SeenLightness, s.Chroma = ok.L, SeenLightness(lab), lab.Chroma()
	if s.Colour.Neutral() {
		if red == green && green == blue { // not the matrix's last digits
			s.Chroma, s.SeenLightness, s.OKLightness = 0, s.Lightness, math.Cbrt(green)
			s.Lab, s.Oklab = Lab{L: s.Lightness}, Oklab{L: s.OKLightness}
		}
		return s
	}
	hue := lab.Hue()
	s.Hue = &hue
	return s
}

// ReadSpot averages the square of size 1, 3, 5 or 11 pixels around (x, y), as far as it
// lies in the picture, in linear light. Transparent pixels don't count. The error wraps
// ErrSize or ErrOutside.
func ReadSpot(p Pixels, x, y, size int) (Spot, error) {
	if size != 1 && size != 3 && size != 5 && size != 11 {
		return Spot{}, fmt.Errorf("spot of size %d: %w", size, ErrSize)
	}
	if !image.Pt(x, y).In(p.Bounds()) {
		return Spot{}, fmt.Errorf("spot at %d,%d: %w", x, y, ErrOutside)
	}
	corner := image.Pt(x-size/2, y-size/2)
	s, err := ReadArea(p, image.Rectangle{Min: corner, Max: corner.Add(image.Pt(size, size))})
	if err != nil {
		return Spot{}, fmt.Errorf("spot at %d,%d: %w", x, y, ErrOutside)
	}
	s.X, s.Y, s.Size = &x, &y, &size
	return s, nil
}

// ReadArea averages an area, as far as it lies in the picture, in linear light.
// Transparent pixels don't count. The error wraps ErrOutside.
func ReadArea(p Pixels, area image.Rectangle) (Spot, error) {
	area = area.Canon().Intersect(p.Bounds())
	if err := p.Check(); err != nil {
		return Spot{}, err
	}
	var sum areaSum
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			if r, g, b, counted := p.At(x, y); counted {
				sum.add(r, g, b)
			}
		}
	}
	if sum.count == 0 {
		return Spot{}, fmt.Errorf("area %v: %w", area, ErrOutside)
	}
	return sum.spot(), nil
}

// areaSum adds up pixels. A repeated colour costs little.
type areaSum struct {
	count            int
	red, green, blue float64
	light, square    float64 // of L*
	low, high        float64
	last             RGB
	lastLight        float64
}

func (a *areaSum) add(r, g, b uint8) {
	if c := (RGB{r, g, b}); a.count == 0 || c != a.last {
		a.last = c
		a.lastLight = Lightness(Luminance(linears[r], linears[g], linears[b]))
		if a.count == 0 {
			a.low, a.high = a.lastLight, a.lastLight
		}
		a.low, a.high = min(a.low, a.lastLight), max(a.high, a.lastLight)
	}
	a.count++
	a.red += linears[r]
	a.green += linears[g]
	a.blue += linears[b]
	a.light += a.lastLight
	a.square += a.lastLight * a.lastLight
}

func (a *areaSum) spot() Spot {
	n := float64(a.count)
	if a.low == a.high && a.square == n*a.low*a.low || a.count == 1 {
		// one lightness; of one colour too, unless several share it
		if a.red == n*linears[a.last.R] && a.green == n*linears[a.last.G] && a.blue == n*linears[a.last.B] {
			s := SpotOf(a.last)
			s.Pixels = a.count
			return s
		}
	}
	s := spotOfLight(a.red/n, a.green/n, a.blue/n)
	mean := a.light / n
	s.Spread = math.Sqrt(max(0, a.square/n-mean*mean))
	s.Low, s.High, s.Pixels = a.low, a.high, a.count
	s.OnEdge = a.high-a.low >= edgeRange
	return s
}
