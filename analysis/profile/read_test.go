package profile

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"app.tonedesk/analysis/colour"
)

// A written space comes back as itself.
func TestSpacesComeBack(t *testing.T) {
	for _, s := range colour.Spaces() {
		back, err := Read(Write(s))
		if err != nil {
			t.Fatal(err)
		}
		if back.Name != s.Name || back.Known() != s.Known() {
			t.Errorf("%s comes back as %q, known as %s", s.Name, back.Name, back.Known().Title())
		}
	}
}

// Profiles that others made are known as what they are.
func TestProfilesOfOthers(t *testing.T) {
	paths := othersProfiles(t)
	for i, want := range []*colour.Space{nil, colour.AdobeRGB} {
		data, err := os.ReadFile(paths[i])
		if err != nil {
			t.Log(err)
			continue
		}
		if s, err := Read(data); err != nil || s.Known() != want {
			t.Errorf("%s: %v, %v; want %s", paths[i], s.Title(), err, want.Title())
		}
	}
}

// withTag returns a profile with another tag in the place of one.
func withTag(profile []byte, name string, tag []byte) []byte {
	p := bytes.Clone(profile)
	for i := range int(binary.BigEndian.Uint32(p[headerBytes:])) {
		if entry := p[headerBytes+4+entryBytes*i:]; string(entry[:4]) == name {
			binary.BigEndian.PutUint32(entry[4:], uint32(len(p)))
			binary.BigEndian.PutUint32(entry[8:], uint32(len(tag)))
		}
	}
	p = append(p, tag...)
	binary.BigEndian.PutUint32(p, uint32(len(p)))
	return p
}

func para(formula byte, parameters ...float64) []byte {
	return append([]byte{'p', 'a', 'r', 'a', 0, 0, 0, 0, 0, formula, 0, 0}, numbers(parameters...)...)
}

func curv(numbers ...uint16) []byte {
	b := binary.BigEndian.AppendUint32([]byte("curv\x00\x00\x00\x00"), uint32(len(numbers)))
	for _, n := range numbers {
		b = binary.BigEndian.AppendUint16(b, n)
	}
	return b
}

// The kinds of curves, each by a few of its values. Source: ICC4, 10.6 and table 68 of 10.18
// (from memory), worked out by hand.
func TestCurves(t *testing.T) {
	for _, tt := range []struct {
		name string
		tag  []byte
		at   map[float64]float64
	}{
		{"no numbers", curv(), map[float64]float64{0: 0, 0.25: 0.25, 1: 1}},
		{"one number, exponent 2", curv(512), map[float64]float64{0: 0, 0.5: 0.25, 1: 1}},
		{"three numbers", curv(0, 13107, 65535), map[float64]float64{0.25: 0.1, 0.5: 0.2, 0.75: 0.6, 1: 1}},
		{"formula 0", para(0, 2), map[float64]float64{0.5: 0.25}},
		{"formula 1", para(1, 2, 2, -1), map[float64]float64{0.25: 0, 0.5: 0, 0.75: 0.25, 1: 1}},
		{"formula 2", para(2, 2, 1.5, -0.75, 0.05), map[float64]float64{0.25: 0.05, 0.5: 0.05, 1: 0.6125}},
		{"formula 3", para(3, 2, 0.75, 0.25, 0.5, 0.25), map[float64]float64{0.125: 0.0625, 0.5: 0.390625, 1: 1}},
		{"formula 4", para(4, 2, 0.75, 0.25, 0.5, 0.25, 0, 0.0625), map[float64]float64{0: 0.0625, 0.125: 0.125, 0.5: 0.390625}},
	} {
		f := file(withTag(Write(nil), "gTRC", tt.tag))
		curve, err := f.curve("gTRC")
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		for at, want := range tt.at {
			if got := curve(at); math.Abs(got-want) > 2.0/65535 {
				t.Errorf("%s at %g is %g, want %g", tt.name, at, got, want)
			}
		}
	}
}

// withCodePoints has a profile say code points, in place of its white. Source: ICC4, 9.2.17 and 10.3 (from memory).
func withCodePoints(p []byte, points ...byte) []byte {
	return withTag(bytes.Replace(p, []byte("wtpt"), []byte("cicp"), 1), "cicp", append([]byte("cicp\x00\x00\x00\x00"), points...))
}

// Code points of an ordinary transfer refuse nothing.
func TestCodePointsOfSRGB(t *testing.T) {
	if _, err := Read(withCodePoints(Write(nil), 1, 13, 0, 1)); err != nil {
		t.Error(err)
	}
}

func TestRefusedProfiles(t *testing.T) {
	good := Write(colour.DisplayP3)
	other := func(at int, text string) []byte {
		p := bytes.Clone(good)
		copy(p[at:], text)
		return p
	}
	for name, tt := range map[string]struct {
		profile []byte
		want    error
	}{
		"nothing":             {nil, ErrDamaged},
		"a text":              {[]byte(strings.Repeat("no profile ", 40)), ErrDamaged},
		"cut short":           {good[:len(good)-1], ErrDamaged},
		"of inks":             {other(16, "CMYK"), ErrOther},
		"of version 5":        {other(8, "\x05"), ErrOther},
		"to L*a*b*":           {other(20, "Lab "), ErrOther},
		"with lookup tables":  {bytes.Replace(good, []byte("wtpt"), []byte("A2B0"), 1), ErrTables},
		"of PQ":               {withCodePoints(good, 9, 16, 0, 1), ErrHDR},
		"of HLG":              {withCodePoints(good, 9, 18, 0, 1), ErrHDR},
		"without a primary":   {bytes.Replace(good, []byte("gXYZ"), []byte("xXYZ"), 1), ErrDamaged},
		"without a curve":     {bytes.Replace(good, []byte("bTRC"), []byte("xTRC"), 1), ErrDamaged},
		"a curve of no kind":  {withTag(good, "rTRC", []byte("what\x00\x00\x00\x00\x00\x00\x00\x00")), ErrDamaged},
		"a curve too short":   {withTag(good, "rTRC", curv(1, 2, 3)[:13]), ErrDamaged},
		"a formula too short": {withTag(good, "rTRC", para(3, 1, 1)), ErrDamaged},
		"a formula 5":         {withTag(good, "rTRC", para(5, 1, 1, 1, 1, 1, 1, 1)), ErrDamaged},
		"a falling curve":     {withTag(good, "rTRC", curv(65535, 0)), ErrDamaged},
		"black primaries":     {withTag(good, "gXYZ", append([]byte("XYZ \x00\x00\x00\x00"), numbers(0, 0, 0)...)), ErrDamaged},
		"too long":            {append(bytes.Clone(good), make([]byte, MaxBytes)...), ErrLarge},
	} {
		if s, err := Read(tt.profile); s != nil || !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, %v; want %v", name, s, err, tt.want)
		}
	}
}

// A white that was brought to D50 in another way than BRADFORD is brought back in that way.
func TestOwnAdaptation(t *testing.T) {
	m, _ := colour.P3Primaries.ToXYZ()
	by := [3][3]float64{{0.9642 / colour.WhiteX, 0, 0}, {0, 1, 0}, {0, 0, 0.8249 / colour.WhiteZ}}
	got := toD65(product(by, m), &by)
	for i := range m {
		for c := range m[i] {
			if math.Abs(got[i][c]-m[i][c]) > 1e-12 {
				t.Errorf("row %d is %v, want %v", i, got[i], m[i])
			}
		}
	}
}

func TestNames(t *testing.T) {
	v2 := append([]byte("desc\x00\x00\x00\x00\x00\x00\x00\x06"), "Easel\x00 and more"...)
	for _, tt := range []struct {
		tag  []byte
		want string
	}{
		{v2, "Easel"},
		{words("Easel, left"), "Easel, left"},
		{words("two\nlines\x1b[31m"), "two lines [31m"},
		{words(strings.Repeat("long ", 40)), strings.Repeat("long ", 12)},
		{words(""), nameless},
		{[]byte("mluc\x00\x00\x00\x00\x00\x00\x00\x01\x00\x00\x00\x0cenUS\xff\xff\xff\xff\xff\xff\xff\xff"), nameless},
	} {
		s, err := Read(withTag(Write(colour.DisplayP3), "desc", tt.tag))
		if err != nil || s.Name != tt.want {
			t.Errorf("named %q, %v; want %q", s.Title(), err, tt.want)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range colour.Spaces() {
		f.Add(Write(s)[:1200])
	}
	small := Write(colour.DisplayP3)
	for _, curve := range []string{"rTRC", "gTRC", "bTRC"} {
		small = withTag(small, curve, para(3, 2.4, 1/1.055, 0.055/1.055, 1/12.92, 0.04045))
	}
	f.Add(small)
	f.Add(withTag(small, "gTRC", curv(0, 100, 65535)))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := Read(data)
		if err != nil {
			if s != nil || !errors.Is(err, ErrDamaged) && !errors.Is(err, ErrTables) && !errors.Is(err, ErrOther) && !errors.Is(err, ErrLarge) {
				t.Errorf("%v beside %v", s, err)
			}
			return
		}
		for code := range 256 {
			v := uint8(code)
			if lab := s.LabOfCode(colour.RGB{R: v, G: 255 - v, B: 17}); !(lab.L >= -1e-9 && lab.L <= 100+1e-9) {
				t.Errorf("L* of %d is %g", code, lab.L)
			}
		}
		if lab := s.LabOfCode(colour.RGB{}); !(lab.L >= -1e-9) || s.Name == "" {
			t.Errorf("black of %q is %v", s.Name, lab)
		}
	})
}
