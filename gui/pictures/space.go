package pictures

import (
	"errors"
	"fmt"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/profile"
	"app.tonedesk/capture/header"
)

// What of a file's colours can't be read.
var (
	// ErrHDR: its numbers are of brighter light than a display's white (PQ or HLG).
	ErrHDR = profile.ErrHDR
	// ErrColours: its numbers stand for colours in a way that isn't read here.
	ErrColours = errors.New("colours told in another way")
)

// ToldBy is what of a file told the colours that its numbers stand for.
type ToldBy string

const (
	ToldByNothing    ToldBy = "nothing"
	ToldByCodePoints ToldBy = "cicp"
	ToldByProfile    ToldBy = "icc"
	ToldBySRGB       ToldBy = "srgb"
	ToldByGamma      ToldBy = "gamma" // or chromaticities, or both
)

// SpaceOf returns the space of a picture file, nil for sRGB, and what of the file told it: of
// several the one that counts most. A published space is itself, however it is told. Source of
// the order: W3C PNG Specification, Third Edition, 4.3 (cICP, iCCP, sRGB, then gAMA and cHRM). The
// error wraps ErrHDR, ErrColours, or an error of profile.
func SpaceOf(c header.Colours) (s *colour.Space, by ToldBy, err error) {
	switch {
	case c.CodePoints != nil && c.CodePoints[0] != unspecified:
		s, err = spaceOfCodePoints([4]byte(c.CodePoints))
		by = ToldByCodePoints
	case c.Profile != nil:
		s, err = profile.Read(c.Profile)
		by = ToldByProfile
	case c.SRGB:
		by = ToldBySRGB
	case c.Gamma != 0 || c.Primaries != nil:
		s, err = spaceOfNumbers(c)
		by = ToldByGamma
	default:
		by = ToldByNothing
	}
	if err != nil {
		return nil, by, err
	}
	return s.Known(), by, nil
}

// Told is what of a file told its colours, and what else of it does, but isn't asked.
type Told struct {
	By         ToldBy
	Overridden []ToldBy
}

// overridden returns what else of a file tells colours, and isn't asked, since by counts more.
func overridden(c header.Colours, by ToldBy) (others []ToldBy) {
	for _, told := range []struct {
		by ToldBy
		is bool
	}{
		{ToldByCodePoints, c.CodePoints != nil}, {ToldByProfile, c.Profile != nil}, {ToldBySRGB, c.SRGB},
		{ToldByGamma, c.Gamma != 0 || c.Primaries != nil},
	} {
		if told.is && told.by != by {
			others = append(others, told.by)
		}
	}
	return others
}

// Code points of ITU-T H.273 (2021), tables 2 and 3 (from memory).
const (
	unspecified = 2
	pq, hlg     = 16, 18
)

// spaceOfCodePoints reads primaries, transfer, matrix and range. The curves of cameras (ITU-R BT.709,
// BT.601, BT.2020) are read as a display shows them, with the exponent 2.4 of ITU-R BT.1886, as
// CSS Color 4 does for rec2020.
func spaceOfCodePoints(points [4]byte) (*colour.Space, error) {
	if points[1] == pq || points[1] == hlg {
		return nil, fmt.Errorf("transfer %d: %w", points[1], ErrHDR)
	}
	primaries, known := map[byte]colour.Primaries{
		1: colour.SRGBPrimaries, 9: colour.Rec2020Primaries, 12: colour.P3Primaries,
	}[points[0]]
	curve, told := map[byte]colour.Transfer{
		1: colour.Power(2.4), 6: colour.Power(2.4), 14: colour.Power(2.4), 15: colour.Power(2.4),
		4: colour.Power(2.2), 5: colour.Power(2.8), 8: colour.Power(1), 13: colour.LinearOf,
	}[points[1]]
	if !known || !told || points[2] != 0 || points[3] != 1 { // red, green and blue over the full range
		return nil, fmt.Errorf("code points %v: %w", points, ErrColours)
	}
	return spaceFrom("its code points", primaries, curve)
}

// spaceOfNumbers reads an exponent and chromaticities; where one is not given it is sRGB's.
func spaceOfNumbers(c header.Colours) (*colour.Space, error) {
	const unit = 100_000 // W3C PNG Specification, Third Edition, 11.3.2.1 and 11.3.2.2
	primaries, curve := colour.SRGBPrimaries, colour.Transfer(colour.LinearOf)
	if c.Gamma != 0 {
		curve = colour.Power(unit / float64(c.Gamma))
	}
	if c.Primaries != nil {
		xy := func(i int) [2]float64 {
			return [2]float64{float64(c.Primaries[i]) / unit, float64(c.Primaries[i+1]) / unit}
		}
		primaries = colour.Primaries{White: xy(0), Red: xy(2), Green: xy(4), Blue: xy(6)}
	}
	return spaceFrom("its chromaticities", primaries, curve)
}

func spaceFrom(name string, primaries colour.Primaries, curve colour.Transfer) (*colour.Space, error) {
	toXYZ, ok := primaries.ToXYZ()
	if !ok {
		return nil, fmt.Errorf("primaries %v: %w", primaries, profile.ErrDamaged)
	}
	s, err := colour.NewSpace(name, profile.ToD65(toXYZ), [3]colour.Transfer{curve, curve, curve})
	if err != nil {
		return nil, fmt.Errorf("%w: %w", profile.ErrDamaged, err)
	}
	return s, nil
}
