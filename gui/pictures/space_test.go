package pictures

import (
	"errors"
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/profile"
	"app.tonedesk/capture/header"
)

// Source of the order: W3C PNG Specification, Third Edition, 4.3.
func TestSpaceOfAFile(t *testing.T) {
	p3, adobe := profile.Write(colour.DisplayP3), profile.Write(colour.AdobeRGB)
	srgbPrimaries := []uint32{31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000}
	p3Primaries := []uint32{31270, 32900, 68000, 32000, 26500, 69000, 15000, 6000}
	for name, tt := range map[string]struct {
		says header.Colours
		want *colour.Space
		by   ToldBy
	}{
		"nothing":                      {header.Colours{}, nil, ToldByNothing},
		"sRGB, and roughly the same":   {header.Colours{SRGB: true, Gamma: 45455, Primaries: srgbPrimaries}, nil, ToldBySRGB},
		"a profile above all that":     {header.Colours{SRGB: true, Gamma: 45455, Profile: adobe}, colour.AdobeRGB, ToldByProfile},
		"a profile of sRGB":            {header.Colours{Profile: profile.Write(nil)}, nil, ToldByProfile},
		"code points above a profile":  {header.Colours{CodePoints: []byte{12, 13, 0, 1}, Profile: adobe, SRGB: true}, colour.DisplayP3, ToldByCodePoints},
		"code points of nothing":       {header.Colours{CodePoints: []byte{2, 2, 0, 1}, Profile: p3}, colour.DisplayP3, ToldByProfile},
		"code points of sRGB":          {header.Colours{CodePoints: []byte{1, 13, 0, 1}}, nil, ToldByCodePoints},
		"code points of ITU-R BT.2020": {header.Colours{CodePoints: []byte{9, 14, 0, 1}}, colour.Rec2020, ToldByCodePoints},
		"an exponent of 1/2.2":         {header.Colours{Gamma: 45455}, colour.Gamma22, ToldByGamma},
		"primaries alone":              {header.Colours{Primaries: p3Primaries}, colour.DisplayP3, ToldByGamma},
		"an exponent and primaries":    {header.Colours{Gamma: 45455, Primaries: srgbPrimaries}, colour.Gamma22, ToldByGamma},
	} {
		s, by, err := SpaceOf(tt.says)
		if err != nil || s != tt.want || by != tt.by {
			t.Errorf("%s: %s by %s, %v; want %s by %s", name, s.Title(), by, err, tt.want.Title(), tt.by)
		}
	}
}

func TestRefusedSpaces(t *testing.T) {
	for name, tt := range map[string]struct {
		says header.Colours
		want error
	}{
		"PQ":                      {header.Colours{CodePoints: []byte{9, 16, 0, 1}, SRGB: true}, ErrHDR},
		"HLG":                     {header.Colours{CodePoints: []byte{9, 18, 0, 1}}, ErrHDR},
		"luma and differences":    {header.Colours{CodePoints: []byte{1, 13, 1, 1}}, ErrColours},
		"a narrow range":          {header.Colours{CodePoints: []byte{1, 13, 0, 0}}, ErrColours},
		"primaries of no display": {header.Colours{CodePoints: []byte{10, 13, 0, 1}}, ErrColours},
		"a logarithm":             {header.Colours{CodePoints: []byte{1, 9, 0, 1}}, ErrColours},
		"no profile":              {header.Colours{Profile: []byte("no profile")}, profile.ErrDamaged},
		"primaries of nothing":    {header.Colours{Primaries: make([]uint32, 8)}, profile.ErrDamaged},
		"one primary thrice":      {header.Colours{Primaries: []uint32{31270, 32900, 64000, 33000, 64000, 33000, 64000, 33000}}, profile.ErrDamaged},
	} {
		if s, _, err := SpaceOf(tt.says); s != nil || !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, %v; want %v", name, s.Title(), err, tt.want)
		}
	}
}

// A white other than D65 is what lightness is relative to: white stays white.
func TestAnotherWhite(t *testing.T) {
	s, _, err := SpaceOf(header.Colours{Primaries: []uint32{34567, 35850, 73470, 26530, 15960, 84040, 3660, 10}, Gamma: 55556})
	if err != nil {
		t.Fatal(err)
	}
	if lab := s.LabOfCode(colour.RGB{R: 255, G: 255, B: 255}); math.Abs(lab.L-100) > 1e-9 || lab.Chroma() > 1e-9 {
		t.Errorf("white is %v", lab)
	}
	// The grey 128 at an exponent of 1.8: Y = (128/255)^1.8 = 0.28917, L* = 60.71 (CIE15, computed by hand).
	if lab := s.LabOfCode(colour.RGB{R: 128, G: 128, B: 128}); math.Abs(lab.L-60.71) > 0.01 {
		t.Errorf("the grey 128 is %v", lab)
	}
}

// A copy and a part of a picture keep its space.
func TestSpaceIsKept(t *testing.T) {
	for _, p := range []analysis.Pixels{row(analysis.RGBA, 1, 2, 3, 255), row(analysis.BGRX, 1, 2, 3, 0)} {
		p.Space = colour.DisplayP3
		if Copy(p).Space != p.Space || p.Crop(p.Bounds()).Space != p.Space || analysis.Opaque(p).Space != p.Space {
			t.Error("a copy has lost its space")
		}
	}
}

// Whatever a file says, it is read as a space, or refused.
func FuzzSpaceOf(f *testing.F) {
	f.Add([]byte{12, 13, 0, 1}, []byte(nil), false, uint32(45455), []byte(nil))
	f.Add([]byte(nil), profile.Write(colour.AdobeRGB)[:600], true, uint32(0), make([]byte, 32))
	f.Fuzz(func(t *testing.T, points, icc []byte, srgb bool, gamma uint32, primaries []byte) {
		c := header.Colours{Profile: icc, SRGB: srgb, Gamma: gamma}
		if len(points) == 4 {
			c.CodePoints = points
		}
		if len(primaries) == 32 {
			c.Primaries = make([]uint32, 8)
			for i := range c.Primaries {
				c.Primaries[i] = uint32(primaries[4*i])<<24 | uint32(primaries[4*i+1])<<16 | uint32(primaries[4*i+2])<<8 | uint32(primaries[4*i+3])
			}
		}
		s, _, err := SpaceOf(c)
		if err != nil {
			return
		}
		for v := range 256 {
			if lab := s.LabOfCode(colour.RGB{R: uint8(v), G: 9, B: 250}); !(lab.L >= -1e-9 && lab.L <= 100+1e-9) {
				t.Errorf("L* is %g", lab.L)
			}
		}
	})
}
