package colour

import (
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"app.tonedesk/analysis/internal/testkit"
)

// Source: srgb_to_lab_oklab.csv (SRGB, CIE15, CSS4).
func TestColoursByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "srgb_to_lab_oklab.csv")
	for _, row := range tab.Rows {
		c := colourOf(t, tab, row)
		r, g, b := Linear(c.R), Linear(c.G), Linear(c.B)
		tab.Check(row, "lin_r", r, 1e-7)
		tab.Check(row, "lin_g", g, 1e-7)
		tab.Check(row, "lin_b", b, 1e-7)
		x, y, z := XYZOf(r, g, b)
		tab.Check(row, "X65", x, 1e-7)
		tab.Check(row, "Y65", y, 1e-7)
		tab.Check(row, "Z65", z, 1e-7)
		lab, ok := LabOf(r, g, b), OklabOf(r, g, b)
		tab.Check(row, "L65", lab.L, 1e-5)
		tab.Check(row, "a65", lab.A, 1e-5)
		tab.Check(row, "b65", lab.B, 1e-5)
		tab.Check(row, "C65", lab.Chroma(), 1e-5)
		tab.Check(row, "okL", ok.L, 1e-7)
		tab.Check(row, "oka", ok.A, 1e-7)
		tab.Check(row, "okb", ok.B, 1e-7)
		tab.Check(row, "okC", ok.Chroma(), 1e-7)
		if lab.Chroma() > 1 {
			tab.Check(row, "h65", lab.Hue(), 1e-3)
			tab.Check(row, "okh", ok.Hue(), 1e-3)
		}
	}
}

// Source: srgb_grey_ramp_256.csv (SRGB, CIE15).
func TestGreysByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "srgb_grey_ramp_256.csv")
	for _, row := range tab.Rows {
		v := uint8(tab.Number(row, "v"))
		tab.Check(row, "Y", Luminance(Linear(v), Linear(v), Linear(v)), 1e-6)
		tab.Check(row, "Lstar", Lightness(Linear(v)), 1e-6)
		if got := GreyOf(tab.Number(row, "Lstar")); got != v {
			t.Errorf("the grey of L* %s is %d, want %d", tab.Cell(row, "Lstar"), got, v)
		}
		if got := Encode(Linear(v)); got != v {
			t.Errorf("code %d comes back as %d", v, got)
		}
	}
}

// Source: ciede2000_34_pairs.csv (SHARMA, table 1).
func TestCIEDE2000AsPublished(t *testing.T) {
	tab := testkit.ReadTable(t, "ciede2000_34_pairs.csv")
	if len(tab.Rows) != 34 {
		t.Fatalf("%d pairs", len(tab.Rows))
	}
	for _, row := range tab.Rows {
		p := Lab{tab.Number(row, "L1"), tab.Number(row, "a1"), tab.Number(row, "b1")}
		q := Lab{tab.Number(row, "L2"), tab.Number(row, "a2"), tab.Number(row, "b2")}
		for _, got := range []float64{CIEDE2000(p, q), CIEDE2000(q, p)} {
			tab.Check(row, "dE00", got, 5e-5)
			tab.Check(row, "dE00_full", got, 1e-7)
		}
	}
}

// Sources: munsell_value_to_y.csv (D1535) and its inverse.
func TestValueByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "munsell_value_to_y.csv")
	for _, row := range tab.Rows {
		y := YOfValue(tab.Number(row, "V"))
		tab.Check(row, "Y_astm", 100*y, 1e-5)
		tab.Check(row, "Lstar", Lightness(y), 1e-5)
	}
	tab = testkit.ReadTable(t, "munsell_y_to_value.csv")
	for _, row := range tab.Rows {
		y := tab.Number(row, "Y") / 100
		if tab.Number(row, "Lstar") > 0.01 { // the printed Y has six decimals
			tab.Check(row, "V", ValueOfY(y), 1e-6)
		}
	}
}

// Sources: blend_nonseparable.csv and blend_functions_worked.csv (W3CBLEND).
func TestLayerGreyByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "blend_nonseparable.csv")
	for _, row := range tab.Rows {
		c := colourOf(t, tab, row)
		grey := LayerGrey(float64(c.R), float64(c.G), float64(c.B))
		tab.Check(row, "lum_255", grey, 1e-4)
		tab.Check(row, "Lstar_blend_grey", LightnessOfLayerGrey(grey), 1e-3)
		if tab.Cell(row, "exact_half") == "no" {
			tab.Check(row, "chromium_saturation_black", math.Round(grey), 0)
		}
	}
	tab = testkit.ReadTable(t, "blend_functions_worked.csv")
	count := 0
	for _, row := range tab.Rows {
		if tab.Cell(row, "function") == "Lum" {
			tab.Check(row, "out_1", LayerGrey(tab.Number(row, "in_r"), tab.Number(row, "in_g"), tab.Number(row, "in_b")), 1e-7)
			count++
		}
	}
	if count == 0 {
		t.Error("no row is tested")
	}
}

// Source: helmholtz_kohlrausch.csv (HGN23; Fairchild and Pirrotta 1991 as a second opinion
// on the sign: both see saturated colours lighter than their grey).
func TestSeenLightnessByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "helmholtz_kohlrausch.csv")
	for _, row := range tab.Rows {
		c := colourOf(t, tab, row)
		lab := LabOf(Linear(c.R), Linear(c.G), Linear(c.B))
		tab.Check(row, "hgn23_L", SeenLightness(lab), 1e-3)
		first := lab.L + (2.5-0.025*lab.L)*(0.116*math.Abs(math.Sin((lab.Hue()-90)/2*math.Pi/180))+0.085)*lab.Chroma()
		tab.Check(row, "fp91_L", first, 1e-3)
		if lab.Chroma() > 20 && (SeenLightness(lab) <= lab.L || first <= lab.L) {
			t.Errorf("%s: %.1f and %.1f are not lighter than %.1f", c.Hex(), SeenLightness(lab), first, lab.L)
		}
	}
}

// Source: css_color4_worked_examples.csv (CSS4).
func TestOklabAsPrinted(t *testing.T) {
	tab := testkit.ReadTable(t, "css_color4_worked_examples.csv")
	for _, row := range tab.Rows {
		lin := func(column string) float64 { return LinearOf(tab.Number(row, column) / 100) }
		ok := OklabOf(lin("r_pct"), lin("g_pct"), lin("b_pct"))
		tab.Check(row, "okL", ok.L, 3e-4)
		tab.Check(row, "oka", ok.A, 3e-4)
		tab.Check(row, "okb", ok.B, 3e-4)
	}
}

// go-colorful, as a second opinion: its white and matrix have fewer digits.
func TestLabAgreesWithColorful(t *testing.T) {
	tab := testkit.ReadTable(t, "srgb_to_lab_oklab.csv")
	for _, row := range tab.Rows {
		c := colourOf(t, tab, row)
		l, a, b := colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}.Lab()
		lab := labOf(c)
		if d := math.Hypot(math.Hypot(100*l-lab.L, 100*a-lab.A), 100*b-lab.B); d > 0.05 {
			t.Errorf("%s differs by %.4f", c.Hex(), d)
		}
	}
}

func colourOf(t *testing.T, tab testkit.Table, row []string) RGB {
	t.Helper()
	c, err := Parse(tab.Cell(row, "hex"))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func labOf(c RGB) Lab { return LabOf(Linear(c.R), Linear(c.G), Linear(c.B)) }
