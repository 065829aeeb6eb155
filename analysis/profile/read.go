package profile

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"

	"app.tonedesk/analysis/colour"
)

// What can be wrong with a profile. Errors of Read wrap one of these.
var (
	// ErrDamaged: the bytes are no profile, or one whose parts make no sense.
	ErrDamaged = errors.New("colour profile damaged")
	// ErrTables: the profile works by lookup tables.
	ErrTables = errors.New("colour profile with lookup tables")
	// ErrOther: a profile of other colours than red, green and blue or grey, such as of inks.
	ErrOther = errors.New("colour profile of another kind")
	// ErrHDR: its numbers are of brighter light than a display's white (PQ or HLG).
	ErrHDR = errors.New("colour profile of high dynamic range")
	// ErrLarge: the profile has more than MaxBytes.
	ErrLarge = errors.New("colour profile too large")
)

// MaxBytes is how long a profile may be. One of primaries and curves has some kilobytes, one of
// lookup tables up to two megabytes (our choice).
const MaxBytes = 4 << 20

// The parts of a profile, in bytes. Source: ICC4, 7.2 and 7.3.
const (
	headerBytes = 128
	entryBytes  = 12
	mostTags    = 200 // a profile has about twenty (our choice)
)

// file is a profile's bytes.
type file []byte

// Read reads a profile as a space, under the name that it gives itself. Lightness is relative to
// its white. Grey profiles are read as greys of sRGB's primaries.
func Read(data []byte) (*colour.Space, error) {
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("%d bytes: %w", len(data), ErrLarge)
	}
	f := file(data)
	if err := f.check(); err != nil {
		return nil, err
	}
	toXYZ, curves, err := f.matrix()
	if err != nil {
		return nil, err
	}
	s, err := colour.NewSpace(f.name(), toXYZ, curves)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	return s, nil
}

// check looks at the header, and whether the profile is of a kind that we read.
func (f file) check() error {
	switch {
	case len(f) < headerBytes+4, string(f[36:40]) != "acsp":
		return fmt.Errorf("no profile in %d bytes: %w", len(f), ErrDamaged)
	case int64(binary.BigEndian.Uint32(f)) > int64(len(f)):
		return fmt.Errorf("%d of %d bytes: %w", len(f), binary.BigEndian.Uint32(f), ErrDamaged)
	case f[8] != 2 && f[8] != 4:
		return fmt.Errorf("version %d: %w", f[8], ErrOther)
	case string(f[16:20]) != "RGB " && string(f[16:20]) != "GRAY":
		return fmt.Errorf("colours of %.4q: %w", f[16:20], ErrOther)
	}
	for _, tag := range []string{"A2B0", "A2B1", "D2B0", "D2B1"} {
		if _, ok := f.tag(tag); ok {
			return ErrTables
		}
	}
	// Code points of ITU-T H.273, beside curves that don't say it all (ICC4, 9.2.17, cicpTag, from memory).
	const pq, hlg = 16, 18
	if points, err := f.typed("cicp", "cicp", 4); err == nil && (points[1] == pq || points[1] == hlg) {
		return fmt.Errorf("transfer %d: %w", points[1], ErrHDR)
	}
	if string(f[20:24]) != "XYZ " {
		return fmt.Errorf("colours that go to %.4q: %w", f[20:24], ErrOther)
	}
	return nil
}

// tag returns the bytes of a tag.
func (f file) tag(name string) ([]byte, bool) {
	count := binary.BigEndian.Uint32(f[headerBytes:])
	for i := range int(min(count, mostTags)) {
		at := headerBytes + 4 + entryBytes*i
		if at+entryBytes > len(f) {
			return nil, false
		}
		if string(f[at:at+4]) != name {
			continue
		}
		from, size := uint64(binary.BigEndian.Uint32(f[at+4:])), uint64(binary.BigEndian.Uint32(f[at+8:]))
		if from+size > uint64(len(f)) {
			return nil, false
		}
		return f[from : from+size], true
	}
	return nil, false
}

// typed returns what stands in a tag of a type, after its first eight bytes.
func (f file) typed(name, kind string, least int) ([]byte, error) {
	tag, ok := f.tag(name)
	if !ok || len(tag) < 8+least || string(tag[:4]) != kind {
		return nil, fmt.Errorf("tag %s: %w", name, ErrDamaged)
	}
	return tag[8:], nil
}

// fixed returns a number of 16 binary digits before and after the point (ICC4, s15Fixed16Number).
func fixed(b []byte) float64 { return float64(int32(binary.BigEndian.Uint32(b))) / 65536 }

// matrix returns what brings the profile's light to XYZ relative to D65, and its curves.
func (f file) matrix() (m [3][3]float64, curves [3]colour.Transfer, err error) {
	if string(f[16:20]) == "GRAY" {
		m, _ = colour.SRGBPrimaries.ToXYZ()
		curve, err := f.curve("kTRC")
		return m, [3]colour.Transfer{curve, curve, curve}, err
	}
	for c, primary := range [3]string{"r", "g", "b"} {
		xyz, err := f.typed(primary+"XYZ", "XYZ ", 12)
		if err != nil {
			return m, curves, err
		}
		for i := range 3 {
			m[i][c] = fixed(xyz[4*i:])
		}
		if curves[c], err = f.curve(primary + "TRC"); err != nil {
			return m, curves, err
		}
	}
	return toD65(m, f.adaptation()), curves, nil
}

// adaptation returns the matrix by which the profile's own white was brought to D50, or nil
// where it doesn't tell. Source: ICC4, 9.2.15, chromaticAdaptationTag.
func (f file) adaptation() *[3][3]float64 {
	numbers, err := f.typed("chad", "sf32", 36)
	if err != nil {
		return nil
	}
	m := new([3][3]float64)
	for i := range 9 {
		m[i/3][i%3] = fixed(numbers[4*i:])
	}
	return m
}

// curve reads a curve. Source: ICC4, 10.6 (curveType) and 10.18 (parametricCurveType).
func (f file) curve(name string) (colour.Transfer, error) {
	tag, ok := f.tag(name)
	if !ok || len(tag) < 12 {
		return nil, fmt.Errorf("tag %s: %w", name, ErrDamaged)
	}
	switch kind := string(tag[:4]); kind {
	case "curv":
		if curve := tableCurve(tag[8:]); curve != nil {
			return curve, nil
		}
	case "para":
		if curve := formulaCurve(int(binary.BigEndian.Uint16(tag[8:])), tag[12:]); curve != nil {
			return curve, nil
		}
	}
	return nil, fmt.Errorf("tag %s: %w", name, ErrDamaged)
}

// mostSteps is how many numbers a curve may have: more than 16 bits tell apart (our choice).
const mostSteps = 1 << 16

// tableCurve reads a count and as many numbers: none is a straight line, one is an exponent, and
// more are light at equal steps, with straight pieces between. nil: damaged.
func tableCurve(b []byte) colour.Transfer {
	count, numbers := uint64(binary.BigEndian.Uint32(b)), b[4:]
	if 2*count > uint64(len(numbers)) || count > mostSteps {
		return nil
	}
	switch count {
	case 0:
		return colour.Power(1)
	case 1:
		return colour.Power(float64(binary.BigEndian.Uint16(numbers)) / 256)
	}
	light := make([]float64, count)
	for i := range light {
		light[i] = float64(binary.BigEndian.Uint16(numbers[2*i:])) / 65535
	}
	return func(encoded float64) float64 {
		at := max(0, min(encoded, 1)) * float64(len(light)-1)
		i := min(int(at), len(light)-2)
		return light[i] + (at-float64(i))*(light[i+1]-light[i])
	}
}

// formulaCurve reads one of five formulas, by its number, and its parameters. nil: damaged.
func formulaCurve(formula int, b []byte) colour.Transfer {
	parameters := [...]int{1, 3, 4, 5, 7}
	if formula >= len(parameters) || len(b) < 4*parameters[formula] {
		return nil
	}
	p := [7]float64{1: 1} // gamma, a, b, c, d, e, f
	for i := range parameters[formula] {
		p[i] = fixed(b[4*i:])
	}
	gamma, a, by, c, d, e, f := p[0], p[1], p[2], p[3], p[4], p[5], p[6]
	switch formula {
	case 0:
		c, d = 0, 0
	case 1, 2: // from -b/a on; c lies under all of it
		if a == 0 {
			return nil
		}
		c, d, e, f = 0, -by/a, c, c
		if formula == 1 {
			e, f = 0, 0
		}
	}
	return func(encoded float64) float64 {
		x := max(0, min(encoded, 1))
		light := c*x + f
		if x >= d {
			light = math.Pow(max(a*x+by, 0), gamma) + e
		}
		return max(0, min(light, 1))
	}
}
