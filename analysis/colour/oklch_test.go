package colour

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/internal/testkit"
)

// Source: srgb_to_lab_oklab.csv (CSS4), read backwards: Oklab to linear light, and Oklch to
// Oklab as far as the hue's four decimals go.
func TestLightOfOklabByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "srgb_to_lab_oklab.csv")
	for _, row := range tab.Rows {
		c := Oklab{tab.Number(row, "okL"), tab.Number(row, "oka"), tab.Number(row, "okb")}
		r, g, b := c.Light()
		tab.Check(row, "lin_r", r, 1e-7)
		tab.Check(row, "lin_g", g, 1e-7)
		tab.Check(row, "lin_b", b, 1e-7)
		if tab.Cell(row, "okh") == "" { // a neutral has no hue
			continue
		}
		turned := Oklch{c.L, tab.Number(row, "okC"), tab.Number(row, "okh")}.Oklab()
		tab.Check(row, "oka", turned.A, 1e-6)
		tab.Check(row, "okb", turned.B, 1e-6)
		tab.Check(row, "okC", c.Oklch().C, 1e-7)
		tab.Check(row, "okh", c.Oklch().H, 1e-3)
	}
}

// Source: gamut_map_oklch_to_srgb.csv, raw_*: encoded sRGB before mapping, signs mirrored
// (colorjs.io 0.7.1). EncodedOf cuts what lies outside.
func TestRawComponentsOfOklchByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "gamut_map_oklch_to_srgb.csv")
	for _, row := range tab.Rows {
		c := Oklch{tab.Number(row, "L"), tab.Number(row, "C"), tab.Number(row, "h")}
		r, g, b := c.Oklab().Light()
		for column, light := range map[string]float64{"raw_r": r, "raw_g": g, "raw_b": b} {
			if want := tab.Number(row, column); want < 0 {
				tab.Check(row, column, -EncodedOf(-light), 1e-6)
			} else if want <= 1 {
				tab.Check(row, column, EncodedOf(light), 1e-6)
			} else if !(light > 1) {
				t.Errorf("%v: %s is %g in linear light, not above white", row[:3], column, light)
			}
		}
	}
}

func TestOklchRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawColour(t, "c")
		made := OklabOfCode(c)
		back := made.Oklch().Oklab()
		r, g, b := back.Light()
		for _, pair := range [][2]float64{
			{back.L, made.L}, {back.A, made.A}, {back.B, made.B},
			{r, Linear(c.R)}, {g, Linear(c.G)}, {b, Linear(c.B)},
		} {
			if !(math.Abs(pair[0]-pair[1]) <= 1e-12) {
				t.Fatalf("%s: %.15g comes back as %.15g", c.Hex(), pair[1], pair[0])
			}
		}
	})
}

func drawColour(t *rapid.T, name string) RGB {
	return RGB{rapid.Byte().Draw(t, name+"R"), rapid.Byte().Draw(t, name+"G"), rapid.Byte().Draw(t, name+"B")}
}
