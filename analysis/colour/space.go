package colour

import (
	"errors"
	"fmt"
	"math"
	"sync"
)

// Space says which light the numbers of a picture stand for: the colours of its primaries and its
// white, and the curve from a number to light. Its white is the display's: lightness is relative
// to it. It never changes, and any goroutine may use it. A nil Space is SRGB, to the last bit.
type Space struct {
	Name string // for people: "Display P3"

	curves  [3]Transfer
	toXYZ   matrix // linear red, green and blue to XYZ, relative to D65
	toLight matrix // the same to linear sRGB
	linears [3][256]float64

	once sync.Once
	kept any
}

// Transfer returns the linear light, 0 to 1, of an encoded component, 0 to 1. It never falls.
type Transfer func(encoded float64) float64

// ErrSpace says that numbers make no space: see NewSpace.
var ErrSpace = errors.New("no colour space")

// NewSpace makes a space of the matrix from its linear red, green and blue to XYZ and of a curve
// for each. The white is to be D65 but for rounding, for which the rows are scaled, so that
// neutrals are neutral. The error wraps ErrSpace where the white is another, a primary has less
// light than none, the primaries are none, or a curve falls, or doesn't run from about 0 to 1.
func NewSpace(name string, toXYZ [3][3]float64, curves [3]Transfer) (*Space, error) {
	s := &Space{Name: name, curves: curves, toXYZ: toXYZ}
	if err := s.scaleToWhite(); err != nil {
		return nil, err
	}
	s.toLight = xyzToLight.of(s.toXYZ)
	for c, curve := range curves {
		for code := range s.linears[c] {
			s.linears[c][code] = curve(float64(code) / 255)
		}
		if err := checkCurve(&s.linears[c]); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// whiteWithin is how far the white of a matrix may be from D65, relative to it: what rounding to
// 16 binary digits and to four decimals of a chromaticity makes, with room (our choice).
const whiteWithin = 0.01

// scaleToWhite scales the rows so that red, green and blue of 1 make D65.
func (s *Space) scaleToWhite() error {
	for i, white := range [3]float64{WhiteX, 1, WhiteZ} {
		row := &s.toXYZ[i]
		sum := row[0] + row[1] + row[2]
		if !(math.Abs(sum/white-1) <= whiteWithin) { // so that NaN fails
			return fmt.Errorf("white of %.4g for %.4g: %w", sum, white, ErrSpace)
		}
		for c := range row {
			row[c] *= white / sum
		}
	}
	if y := s.toXYZ[1]; min(y[0], y[1], y[2]) < 0 {
		return fmt.Errorf("a primary of luminance %.4g: %w", min(y[0], y[1], y[2]), ErrSpace)
	}
	if d := s.toXYZ.determinant(); !(math.Abs(d) > leastVolume) {
		return fmt.Errorf("primaries that span %.3g: %w", d, ErrSpace)
	}
	return nil
}

// leastVolume is the volume in XYZ, relative to white, that the primaries span at least; those of
// sRGB span 0.19 (computed). Below it they lie in a plane, and colours can't be told apart (our choice).
const leastVolume = 1e-3

// curveWithin is how far from 0 and 1 a curve may begin and end (our choice).
const curveWithin = 0.1

func checkCurve(linears *[256]float64) error {
	last := 0.0
	for _, v := range linears {
		if !(v >= last-1e-6) || v > 1 {
			return fmt.Errorf("a curve that falls, or leaves 0 to 1, at %g: %w", v, ErrSpace)
		}
		last = v
	}
	if linears[0] > curveWithin || last < 1-curveWithin {
		return fmt.Errorf("a curve from %g to %g: %w", linears[0], last, ErrSpace)
	}
	return nil
}

// orSRGB returns the space, SRGB for nil.
func (s *Space) orSRGB() *Space {
	if s == nil {
		return SRGB
	}
	return s
}

// Title returns the space's name, for nil as well.
func (s *Space) Title() string { return s.orSRGB().Name }

// Linears returns the linear light of each 8-bit code, in the space's own red, green and blue. It
// is not to be written to.
func (s *Space) Linears() *[3][256]float64 { return &s.orSRGB().linears }

// LinearOf returns the light of an encoded component, 0 to 1, of red (0), green (1) or blue (2).
func (s *Space) LinearOf(channel int, encoded float64) float64 {
	return s.orSRGB().curves[channel](max(0, min(encoded, 1)))
}

// Luminance returns the relative luminance of the space's own linear red, green and blue.
func (s *Space) Luminance(red, green, blue float64) float64 {
	y := &s.orSRGB().toXYZ[1]
	return y[0]*red + y[1]*green + y[2]*blue
}

// XYZ returns CIE XYZ, relative to D65 with Y = 1, of the space's own linear red, green and blue.
func (s *Space) XYZ(red, green, blue float64) (x, y, z float64) {
	return s.orSRGB().toXYZ.times(red, green, blue)
}

// Light returns linear sRGB of the space's own linear red, green and blue: what everything else
// here takes. Colours that sRGB can't show lie under 0 or above 1. Neutrals stay neutral.
func (s *Space) Light(red, green, blue float64) (r, g, b float64) {
	if s == nil || s == SRGB || red == green && green == blue {
		return red, green, blue
	}
	return s.toLight.times(red, green, blue)
}

// LightOfCode is Light for an 8-bit colour of the space.
func (s *Space) LightOfCode(c RGB) (red, green, blue float64) {
	t := s.Linears()
	return s.Light(t[0][c.R], t[1][c.G], t[2][c.B])
}

// Code returns the 8-bit sRGB code of an 8-bit colour of the space; channels that sRGB can't show
// are cut to its ends.
func (s *Space) Code(c RGB) RGB {
	if s == nil || s == SRGB {
		return c
	}
	r, g, b := s.LightOfCode(c)
	return RGB{Encode(r), Encode(g), Encode(b)}
}

// EncodedOf returns the encoded component of red (0), green (1) or blue (2) whose light it is.
func (s *Space) EncodedOf(channel int, linear float64) float64 {
	if s == nil || s == SRGB {
		return EncodedOf(linear)
	}
	curve := s.curves[channel]
	return Bisect(func(encoded float64) bool { return curve(encoded) <= linear })
}

// GreyLightness returns the lightness of a layer grey, 0 to 255, of the space.
func (s *Space) GreyLightness(grey float64) float64 {
	if s == nil || s == SRGB {
		return LightnessOfLayerGrey(grey)
	}
	v := grey / 255
	return Lightness(s.Luminance(s.LinearOf(0, v), s.LinearOf(1, v), s.LinearOf(2, v)))
}

// Keep returns what make makes of the space, which is made once: tables. The space lives as long
// as they do.
func (s *Space) Keep(make func() any) any {
	s.once.Do(func() { s.kept = make() })
	return s.kept
}

// Primaries are chromaticities x, y of red, green, blue and white. Source: CIE15.
type Primaries struct{ Red, Green, Blue, White [2]float64 }

// ToXYZ returns the matrix from linear light of these primaries to XYZ, with Y = 1 for white.
// ok is false where they make none. Source: CSS4, sample code (the primaries are scaled so that
// they add up to white).
func (p Primaries) ToXYZ() (m [3][3]float64, ok bool) {
	var own matrix
	for c, xy := range [3][2]float64{p.Red, p.Green, p.Blue} {
		own[0][c], own[1][c], own[2][c] = xy[0], xy[1], 1-xy[0]-xy[1]
	}
	back, ok := own.inverse()
	if !ok || !(p.White[1] > 0) {
		return m, false
	}
	white := [3]float64{p.White[0] / p.White[1], 1, (1 - p.White[0] - p.White[1]) / p.White[1]}
	var by [3]float64
	by[0], by[1], by[2] = back.times(white[0], white[1], white[2])
	for i := range own {
		for c := range own[i] {
			m[i][c] = own[i][c] * by[c]
		}
	}
	return m, true
}
