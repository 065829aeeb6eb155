package analysis

import (
	"testing"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
)

// Sources: srgb_to_lab_oklab.csv (SRGB, CIE15, CSS4), blend_nonseparable.csv (W3CBLEND).
func TestSpotsByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "srgb_to_lab_oklab.csv")
	for _, row := range tab.Rows {
		c := colourOf(t, tab, row)
		spot := SpotOf(c)
		tab.Check(row, "L65", spot.Lightness, 1e-5)
		tab.Check(row, "okL", spot.OKLightness, 1e-7)
		if (spot.Hue == nil) != (c.R == c.G && c.G == c.B) {
			t.Errorf("%s: hue %v", c.Hex(), spot.Hue)
		}
	}
	tab = testkit.ReadTable(t, "blend_nonseparable.csv")
	for _, row := range tab.Rows {
		tab.Check(row, "lum_255", SpotOf(colourOf(t, tab, row)).LayerGrey, 1e-4)
	}
}

// Source: srgb_grey_ramp_256.csv (CSS4). The greys of the display have no chroma.
func TestSpotsOfGreysByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "srgb_grey_ramp_256.csv")
	if len(tab.Rows) != 256 {
		t.Fatalf("%d greys", len(tab.Rows))
	}
	for _, row := range tab.Rows {
		v := uint8(tab.Number(row, "v"))
		s := SpotOf(colour.RGB{R: v, G: v, B: v})
		tab.Check(row, "oklab_L", s.OKLightness, 1e-6)
		tab.Check(row, "Lstar", s.SeenLightness, 1e-6)
		if s.Hue != nil || !(s.Chroma < 1e-9) || !(s.Oklab.Chroma() < 1e-9) {
			t.Errorf("grey %d: hue %v, chroma %g, %g", v, s.Hue, s.Chroma, s.Oklab.Chroma())
		}
	}
}

func colourOf(t *testing.T, tab testkit.Table, row []string) colour.RGB {
	t.Helper()
	c, err := colour.Parse(tab.Cell(row, "hex"))
	if err != nil {
		t.Fatal(err)
	}
	return c
}
