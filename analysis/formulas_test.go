package analysis

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
)

// table is a file of testdata: rows of named columns. testdata/README.md has the sources.
type table struct {
	t    *testing.T
	file string
	head map[string]int
	rows [][]string
}

func readTable(t *testing.T, file string) table {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %v, %d rows", file, err, len(rows))
	}
	tab := table{t: t, file: file, head: map[string]int{}, rows: rows[1:]}
	for i, name := range rows[0] {
		tab.head[name] = i
	}
	return tab
}

// cell returns a column of a row as text.
func (tab table) cell(row []string, column string) string {
	tab.t.Helper()
	i, ok := tab.head[column]
	if !ok {
		tab.t.Fatalf("%s has no column %q", tab.file, column)
	}
	return row[i]
}

// number returns a column of a row.
func (tab table) number(row []string, column string) float64 {
	tab.t.Helper()
	v, err := strconv.ParseFloat(tab.cell(row, column), 64)
	if err != nil {
		tab.t.Fatalf("%s: %v", tab.file, err)
	}
	return v
}

// check compares got with a column of a row.
func (tab table) check(row []string, column string, got, tol float64) {
	tab.t.Helper()
	if want := tab.number(row, column); !(math.Abs(got-want) <= tol) { // so that NaN fails
		tab.t.Errorf("%s, %v: %s is %.10g, want %.10g within %g", tab.file, row[0], column, got, want, tol)
	}
}

func (tab table) colour(row []string) RGB {
	tab.t.Helper()
	c, err := ParseColour(tab.cell(row, "hex"))
	if err != nil {
		tab.t.Fatal(err)
	}
	return c
}

// Source: srgb_to_lab_oklab.csv (SRGB, CIE15, CSS4).
func TestColoursAsPublished(t *testing.T) {
	tab := readTable(t, "srgb_to_lab_oklab.csv")
	for _, row := range tab.rows {
		c := tab.colour(row)
		r, g, b := Linear(c.R), Linear(c.G), Linear(c.B)
		tab.check(row, "lin_r", r, 1e-7)
		tab.check(row, "lin_g", g, 1e-7)
		tab.check(row, "lin_b", b, 1e-7)
		x, y, z := XYZOf(r, g, b)
		tab.check(row, "X65", x, 1e-7)
		tab.check(row, "Y65", y, 1e-7)
		tab.check(row, "Z65", z, 1e-7)
		lab, ok := LabOf(r, g, b), OklabOf(r, g, b)
		tab.check(row, "L65", lab.L, 1e-5)
		tab.check(row, "a65", lab.A, 1e-5)
		tab.check(row, "b65", lab.B, 1e-5)
		tab.check(row, "C65", lab.Chroma(), 1e-5)
		tab.check(row, "okL", ok.L, 1e-7)
		tab.check(row, "oka", ok.A, 1e-7)
		tab.check(row, "okb", ok.B, 1e-7)
		tab.check(row, "okC", ok.Chroma(), 1e-7)
		if lab.Chroma() > 1 {
			tab.check(row, "h65", lab.Hue(), 1e-3)
			tab.check(row, "okh", ok.Hue(), 1e-3)
		}
		spot := SpotOf(c)
		tab.check(row, "L65", spot.Lightness, 1e-5)
		tab.check(row, "okL", spot.OKLightness, 1e-7)
		if (spot.Hue == nil) != (c.R == c.G && c.G == c.B) {
			t.Errorf("%s: hue %v", c.Hex(), spot.Hue)
		}
	}
}

// Source: srgb_grey_ramp_256.csv (SRGB, CIE15).
func TestGreysAsPublished(t *testing.T) {
	tab := readTable(t, "srgb_grey_ramp_256.csv")
	for _, row := range tab.rows {
		v := uint8(tab.number(row, "v"))
		tab.check(row, "Y", Luminance(Linear(v), Linear(v), Linear(v)), 1e-6)
		tab.check(row, "Lstar", Lightness(Linear(v)), 1e-6)
		if got := GreyOf(tab.number(row, "Lstar")); got != v {
			t.Errorf("the grey of L* %s is %d, want %d", tab.cell(row, "Lstar"), got, v)
		}
		if got := Encode(Linear(v)); got != v {
			t.Errorf("code %d comes back as %d", v, got)
		}
	}
}

// Source: ciede2000_34_pairs.csv (SHARMA, table 1).
func TestCIEDE2000AsPublished(t *testing.T) {
	tab := readTable(t, "ciede2000_34_pairs.csv")
	if len(tab.rows) != 34 {
		t.Fatalf("%d pairs", len(tab.rows))
	}
	for _, row := range tab.rows {
		p := Lab{tab.number(row, "L1"), tab.number(row, "a1"), tab.number(row, "b1")}
		q := Lab{tab.number(row, "L2"), tab.number(row, "a2"), tab.number(row, "b2")}
		for _, got := range []float64{CIEDE2000(p, q), CIEDE2000(q, p)} {
			tab.check(row, "dE00", got, 5e-5)
			tab.check(row, "dE00_full", got, 1e-7)
		}
	}
}

// Sources: munsell_value_to_y.csv (D1535) and its inverse.
func TestValueAsPublished(t *testing.T) {
	tab := readTable(t, "munsell_value_to_y.csv")
	for _, row := range tab.rows {
		y := YOfValue(tab.number(row, "V"))
		tab.check(row, "Y_astm", 100*y, 1e-5)
		tab.check(row, "Lstar", Lightness(y), 1e-5)
	}
	tab = readTable(t, "munsell_y_to_value.csv")
	for _, row := range tab.rows {
		y := tab.number(row, "Y") / 100
		if tab.number(row, "Lstar") > 0.01 { // the printed Y has six decimals
			tab.check(row, "V", ValueOfY(y), 1e-6)
		}
	}
}

// Sources: blend_nonseparable.csv and blend_functions_worked.csv (W3CBLEND).
func TestLayerGreyAsPublished(t *testing.T) {
	tab := readTable(t, "blend_nonseparable.csv")
	for _, row := range tab.rows {
		c := tab.colour(row)
		grey := LayerGrey(float64(c.R), float64(c.G), float64(c.B))
		tab.check(row, "lum_255", grey, 1e-4)
		tab.check(row, "Lstar_blend_grey", lightnessOfLayerGrey(grey), 1e-3)
		tab.check(row, "lum_255", SpotOf(c).LayerGrey, 1e-4)
		if tab.cell(row, "exact_half") == "no" {
			tab.check(row, "chromium_saturation_black", math.Round(grey), 0)
		}
	}
	tab = readTable(t, "blend_functions_worked.csv")
	count := 0
	for _, row := range tab.rows {
		if tab.cell(row, "function") == "Lum" {
			tab.check(row, "out_1", LayerGrey(tab.number(row, "in_r"), tab.number(row, "in_g"), tab.number(row, "in_b")), 1e-7)
			count++
		}
	}
	if count == 0 {
		t.Error("no row is tested")
	}
}

// Source: helmholtz_kohlrausch.csv (HGN23; Fairchild and Pirrotta 1991 as a second opinion
// on the sign: both see saturated colours lighter than their grey).
func TestSeenLightnessAsPublished(t *testing.T) {
	tab := readTable(t, "helmholtz_kohlrausch.csv")
	for _, row := range tab.rows {
		c := tab.colour(row)
		lab := LabOf(Linear(c.R), Linear(c.G), Linear(c.B))
		tab.check(row, "hgn23_L", SeenLightness(lab), 1e-3)
		first := lab.L + (2.5-0.025*lab.L)*(0.116*math.Abs(math.Sin((lab.Hue()-90)/2*math.Pi/180))+0.085)*lab.Chroma()
		tab.check(row, "fp91_L", first, 1e-3)
		if lab.Chroma() > 20 && (SeenLightness(lab) <= lab.L || first <= lab.L) {
			t.Errorf("%s: %.1f and %.1f are not lighter than %.1f", c.Hex(), SeenLightness(lab), first, lab.L)
		}
	}
}

// Source: css_color4_worked_examples.csv (CSS4).
func TestOklabAsPrinted(t *testing.T) {
	tab := readTable(t, "css_color4_worked_examples.csv")
	for _, row := range tab.rows {
		lin := func(column string) float64 { return LinearOf(tab.number(row, column) / 100) }
		ok := OklabOf(lin("r_pct"), lin("g_pct"), lin("b_pct"))
		tab.check(row, "okL", ok.L, 3e-4)
		tab.check(row, "oka", ok.A, 3e-4)
		tab.check(row, "okb", ok.B, 3e-4)
	}
}

// go-colorful, as a second opinion: its white and matrix have fewer digits.
func TestLabAgreesWithColorful(t *testing.T) {
	tab := readTable(t, "srgb_to_lab_oklab.csv")
	for _, row := range tab.rows {
		c := tab.colour(row)
		l, a, b := colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}.Lab()
		lab := SpotOf(c).Lab
		if d := math.Hypot(math.Hypot(100*l-lab.L, 100*a-lab.A), 100*b-lab.B); d > 0.05 {
			t.Errorf("%s differs by %.4f", c.Hex(), d)
		}
	}
}
