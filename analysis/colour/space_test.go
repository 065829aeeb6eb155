package colour

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/internal/testkit"
)

// Source: display_spaces_to_lab.csv (SRGB, P3, ADOBE, BT2020, BT1886, CSS4, CIE15).
func TestSpacesByTheirPublishedDefinitions(t *testing.T) {
	spaces := map[string]*Space{"srgb": SRGB, "display-p3": DisplayP3, "a98-rgb": AdobeRGB, "rec2020": Rec2020}
	tab, checked := testkit.ReadTable(t, "display_spaces_to_lab.csv"), 0
	for _, row := range tab.Rows {
		s := spaces[row[0]]
		if s == nil {
			continue // the camera curve of ITU-R BT.2020
		}
		checked++
		r, g, b := s.LinearOf(0, tab.Number(row, "r")), s.LinearOf(1, tab.Number(row, "g")), s.LinearOf(2, tab.Number(row, "b"))
		x, y, z := s.XYZ(r, g, b)
		tab.Check(row, "X65", x, 1e-7)
		tab.Check(row, "Y65", y, 1e-7)
		tab.Check(row, "Z65", z, 1e-7)
		lab := LabOf(s.Light(r, g, b))
		tab.Check(row, "L65", lab.L, 1e-5)
		tab.Check(row, "a65", lab.A, 1e-5)
		tab.Check(row, "b65", lab.B, 1e-5)
		ok := OklabOf(s.Light(r, g, b))
		tab.Check(row, "okL", ok.L, 1e-7)
		tab.Check(row, "oka", ok.A, 1e-7)
		tab.Check(row, "okb", ok.B, 1e-7)
	}
	if checked != 40 {
		t.Errorf("%d colours checked, want 10 in each of 4 spaces", checked)
	}
}

// Every code of sRGB read as a space is what the built-in way says, to the last bit.
func TestSRGBAsASpaceIsTheBuiltInWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := RGB{rapid.Byte().Draw(t, "r"), rapid.Byte().Draw(t, "g"), rapid.Byte().Draw(t, "b")}
		want := LabOf(Linears[c.R], Linears[c.G], Linears[c.B])
		for _, s := range []*Space{nil, SRGB} {
			if got := s.LabOfCode(c); got != want {
				t.Errorf("%v is %v, want %v", c, got, want)
			}
			x, y, z := s.XYZ(s.LightOfCode(c))
			if wx, wy, wz := XYZOf(Linears[c.R], Linears[c.G], Linears[c.B]); x != wx || y != wy || z != wz {
				t.Errorf("%v has XYZ %g %g %g, want %g %g %g", c, x, y, z, wx, wy, wz)
			}
			if s.Code(c) != c {
				t.Errorf("%v has the code %v", c, s.Code(c))
			}
		}
	})
}

// Greys of any space stay greys, white is white, lightness rises with any code, and an encoded
// component comes back from its light.
func TestLawsOfSpaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(Spaces()).Draw(t, "space")
		v, encoded := rapid.Byte().Draw(t, "code"), rapid.Float64Range(0, 1).Draw(t, "encoded")
		if r, g, b := s.LightOfCode(RGB{v, v, v}); r != g || g != b {
			t.Errorf("the grey %d of %s is %g %g %g", v, s.Name, r, g, b)
		}
		if lab := s.LabOfCode(RGB{255, 255, 255}); math.Abs(lab.L-100) > 1e-12 || lab.Chroma() > 1e-9 {
			t.Errorf("the white of %s is %v", s.Name, lab)
		}
		for channel := range 3 {
			if back := s.EncodedOf(channel, s.LinearOf(channel, encoded)); math.Abs(back-encoded) > 1e-6 {
				t.Errorf("%g comes back from the light of %s as %g", encoded, s.Name, back)
			}
			var c, lighter [3]uint8
			c[channel], lighter[channel] = v, max(v, 1)-1
			if y, less := s.LabOfCode(RGB{c[0], c[1], c[2]}).L, s.LabOfCode(RGB{lighter[0], lighter[1], lighter[2]}).L; y < less {
				t.Errorf("%s: L* falls from %g to %g at %d of channel %d", s.Name, less, y, v, channel)
			}
		}
	})
}

func TestKnownSpaces(t *testing.T) {
	rounded := func(p Primaries, by float64, curve Transfer) *Space {
		m, _ := p.ToXYZ()
		for i := range m {
			for j := range m[i] {
				m[i][j] = math.Round(m[i][j]/by) * by
			}
		}
		s, err := NewSpace("from a file", m, [3]Transfer{curve, curve, curve})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	for _, tt := range []struct {
		space, want *Space
	}{
		{nil, nil}, {SRGB, nil}, {DisplayP3, DisplayP3}, {Gamma22, Gamma22},
		{rounded(SRGBPrimaries, 1.0/65536, LinearOf), nil},
		{rounded(P3Primaries, 1.0/65536, LinearOf), DisplayP3},
		{rounded(adobePrimaries, 1.0/65536, Power(563.0/256)), AdobeRGB},
	} {
		if got := tt.space.Known(); got != tt.want {
			t.Errorf("%s is known as %s, want %s", tt.space.Title(), got.Title(), tt.want.Title())
		}
	}
	if other := rounded(SRGBPrimaries, 1.0/65536, Power(1.8)); other.Known() != other {
		t.Errorf("an exponent of 1.8 is known as %s", other.Known().Title())
	}
}

func TestNumbersThatMakeNoSpace(t *testing.T) {
	good, _ := SRGBPrimaries.ToXYZ()
	curves := [3]Transfer{LinearOf, LinearOf, LinearOf}
	blue := good
	blue[1] = [3]float64{0.3, 0.8, -0.1}
	for name, tt := range map[string]struct {
		m      [3][3]float64
		curves [3]Transfer
	}{
		"nothing":                 {[3][3]float64{}, curves},
		"not numbers":             {[3][3]float64{{math.NaN()}}, curves},
		"less light than none":    {blue, curves},
		"all primaries are white": {[3][3]float64{{WhiteX / 3, WhiteX / 3, WhiteX / 3}, {1. / 3, 1. / 3, 1. / 3}, {WhiteZ / 3, WhiteZ / 3, WhiteZ / 3}}, curves},
		"a curve that falls":      {good, [3]Transfer{LinearOf, func(v float64) float64 { return 1 - v }, LinearOf}},
		"a curve of nothing":      {good, [3]Transfer{LinearOf, LinearOf, func(float64) float64 { return 0 }}},
		"a curve of no numbers":   {good, [3]Transfer{LinearOf, LinearOf, func(float64) float64 { return math.NaN() }}},
	} {
		if s, err := NewSpace(name, tt.m, tt.curves); s != nil || !errors.Is(err, ErrSpace) {
			t.Errorf("%s: %v, %v", name, s, err)
		}
	}
	if _, ok := (Primaries{}).ToXYZ(); ok {
		t.Error("no primaries make a matrix")
	}
}
