package analysis

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Source: srgb_to_lab_oklab.csv (CSS4), read backwards: Oklab to linear light, and Oklch to
// Oklab as far as the hue's four decimals go.
func TestLightOfOklabAsPublished(t *testing.T) {
	tab := readTable(t, "srgb_to_lab_oklab.csv")
	for _, row := range tab.rows {
		c := Oklab{tab.number(row, "okL"), tab.number(row, "oka"), tab.number(row, "okb")}
		r, g, b := c.Light()
		tab.check(row, "lin_r", r, 1e-7)
		tab.check(row, "lin_g", g, 1e-7)
		tab.check(row, "lin_b", b, 1e-7)
		if tab.cell(row, "okh") == "" { // a neutral has no hue
			continue
		}
		turned := Oklch{c.L, tab.number(row, "okC"), tab.number(row, "okh")}.Oklab()
		tab.check(row, "oka", turned.A, 1e-6)
		tab.check(row, "okb", turned.B, 1e-6)
		tab.check(row, "okC", c.Oklch().C, 1e-7)
		tab.check(row, "okh", c.Oklch().H, 1e-3)
	}
}

// Source: gamut_map_oklch_to_srgb.csv, raw_*: encoded sRGB before mapping, signs mirrored
// (colorjs.io 0.7.1). EncodedOf cuts what lies outside.
func TestRawComponentsOfOklchAsPublished(t *testing.T) {
	tab := readTable(t, "gamut_map_oklch_to_srgb.csv")
	for _, row := range tab.rows {
		c := Oklch{tab.number(row, "L"), tab.number(row, "C"), tab.number(row, "h")}
		r, g, b := c.Oklab().Light()
		for column, light := range map[string]float64{"raw_r": r, "raw_g": g, "raw_b": b} {
			if want := tab.number(row, column); want < 0 {
				tab.check(row, column, -EncodedOf(-light), 1e-6)
			} else if want <= 1 {
				tab.check(row, column, EncodedOf(light), 1e-6)
			} else if !(light > 1) {
				t.Errorf("%v: %s is %g in linear light, not above white", row[:3], column, light)
			}
		}
	}
}

func TestOklchRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := SpotOf(drawColour(t, "c"))
		back := s.Oklab.Oklch().Oklab()
		r, g, b := back.Light()
		for _, pair := range [][2]float64{
			{back.L, s.Oklab.L}, {back.A, s.Oklab.A}, {back.B, s.Oklab.B},
			{r, Linear(s.Colour.R)}, {g, Linear(s.Colour.G)}, {b, Linear(s.Colour.B)},
		} {
			if !(math.Abs(pair[0]-pair[1]) <= 1e-12) {
				t.Fatalf("%s: %.15g comes back as %.15g", s.Colour.Hex(), pair[1], pair[0])
			}
		}
	})
}
