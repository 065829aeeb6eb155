package colour

import "math"

// d65 is the chromaticity of the white of all published spaces here (CSS4: x 0.3127, y 0.3290).
var d65 = [2]float64{0.3127, 0.3290}

// Primaries of the published spaces.
var (
	// SRGBPrimaries are those of sRGB and of ITU-R BT.709 (SRGB).
	SRGBPrimaries = Primaries{[2]float64{0.64, 0.33}, [2]float64{0.30, 0.60}, [2]float64{0.15, 0.06}, d65}
	// P3Primaries are those of Display P3 (P3).
	P3Primaries = Primaries{[2]float64{0.680, 0.320}, [2]float64{0.265, 0.690}, [2]float64{0.150, 0.060}, d65}
	// Rec2020Primaries are those of ITU-R BT.2020 (BT2020, table 3).
	Rec2020Primaries = Primaries{[2]float64{0.708, 0.292}, [2]float64{0.170, 0.797}, [2]float64{0.131, 0.046}, d65}
	adobePrimaries   = Primaries{[2]float64{0.64, 0.33}, [2]float64{0.21, 0.71}, [2]float64{0.15, 0.06}, d65}
)

// The published spaces.
var (
	// SRGB is what a picture is taken to be in that says nothing. Sources: SRGB, CSS4.
	SRGB = func() *Space {
		s := published("sRGB", SRGBPrimaries, LinearOf)
		s.toXYZ = srgbToXYZ // the exact fractions, so that it is the built-in way to the last bit
		s.toLight = matrix{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
		return s
	}()
	// DisplayP3 has the primaries of digital cinema, D65, and sRGB's curve. Sources: P3, CSS4.
	DisplayP3 = published("Display P3", P3Primaries, LinearOf)
	// AdobeRGB is Adobe RGB (1998), with its exponent of 2 51/256. Sources: ADOBE, CSS4.
	AdobeRGB = published("Adobe RGB (1998)", adobePrimaries, Power(563.0/256))
	// Rec2020 is as a display shows it, with the exponent 2.4. Sources: BT2020, BT1886, CSS4. Its
	// camera curve, which older software takes, is lighter by up to 10 L*.
	Rec2020 = published("Rec. 2020", Rec2020Primaries, Power(2.4))
	// Gamma22 has sRGB's primaries and the exponent 2.2, as displays without any management have
	// them (common practice, no source).
	Gamma22 = published("gamma 2.2", SRGBPrimaries, Power(2.2))
)

// Spaces returns the published spaces, sRGB first.
func Spaces() []*Space { return []*Space{SRGB, DisplayP3, AdobeRGB, Rec2020, Gamma22} }

// published makes a space of numbers that are known to make one.
func published(name string, p Primaries, curve Transfer) *Space {
	toXYZ, ok := p.ToXYZ()
	s, err := NewSpace(name, toXYZ, [3]Transfer{curve, curve, curve})
	if !ok || err != nil {
		panic(name) // a mistake in the numbers above
	}
	return s
}

// Power returns the transfer of an exponent.
func Power(exponent float64) Transfer {
	return func(encoded float64) float64 { return math.Pow(max(0, min(encoded, 1)), exponent) }
}

// likeWithin is how far from a published space, in L*a*b*, a space may be anywhere to be it: less
// than what is printed. Profiles round to 16 binary digits, and tables of curves to as many (our choice).
const likeWithin = 0.1

// Known returns the published space that a space is but for rounding, nil for sRGB; else itself.
func (s *Space) Known() *Space {
	for _, published := range Spaces() {
		if s.orSRGB() == published || s != nil && s.like(published) {
			if published == SRGB {
				return nil
			}
			return published
		}
	}
	return s
}

// like compares two spaces over a grid of codes.
func (s *Space) like(other *Space) bool {
	const step = 15 // 18 codes a channel, from 0 to 255
	for r := 0; r < 256; r += step {
		for g := 0; g < 256; g += step {
			for b := 0; b < 256; b += step {
				c := RGB{uint8(r), uint8(g), uint8(b)}
				p, q := s.LabOfCode(c), other.LabOfCode(c)
				if !(max(math.Abs(p.L-q.L), math.Abs(p.A-q.A), math.Abs(p.B-q.B)) <= likeWithin) {
					return false
				}
			}
		}
	}
	return true
}

// LabOfCode returns the L*a*b* of an 8-bit colour of the space.
func (s *Space) LabOfCode(c RGB) Lab { return LabOf(s.LightOfCode(c)) }
