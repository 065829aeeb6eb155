package colour

import (
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"app.tonedesk/analysis/internal/testkit"
)

// Source: oklab_published_pairs.csv (Ottosson 2020, printed to three decimals; CSS4).
func TestOklabPairsAsPublished(t *testing.T) {
	tab := testkit.ReadTable(t, "oklab_published_pairs.csv")
	for _, row := range tab.Rows {
		ok := oklabOfXYZ(tab.Number(row, "X"), tab.Number(row, "Y"), tab.Number(row, "Z"))
		tab.Check(row, "pub_L", ok.L, 5e-4)
		tab.Check(row, "pub_a", ok.A, 5e-4)
		tab.Check(row, "pub_b", ok.B, 5e-4)
		tab.Check(row, "css_L", ok.L, 1e-7)
		tab.Check(row, "css_a", ok.A, 1e-7)
		tab.Check(row, "css_b", ok.B, 1e-7)
	}
}

// go-colorful, as a second opinion: its matrices have fewer digits.
func TestOklabAgreesWithColorful(t *testing.T) {
	tab := testkit.ReadTable(t, "srgb_to_lab_oklab.csv")
	for _, row := range tab.Rows {
		c := colourOf(t, tab, row)
		l, a, b := colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}.OkLab()
		ok := OklabOfCode(c)
		if d := math.Hypot(math.Hypot(l-ok.L, a-ok.A), b-ok.B); !(d <= 5e-4) {
			t.Errorf("%s differs by %.6f", c.Hex(), d)
		}
	}
}
