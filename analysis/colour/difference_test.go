package colour

import (
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"pgregory.net/rapid"

	"app.tonedesk/analysis/internal/testkit"
	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

func drawLab(t *rapid.T, name string) Lab {
	return Lab{
		rapid.Float64Range(0, 100).Draw(t, name+"L"),
		rapid.Float64Range(-130, 130).Draw(t, name+"a"),
		rapid.Float64Range(-130, 130).Draw(t, name+"b"),
	}
}

// SHARMA: a difference is symmetric, not below 0, and 0 only between a colour and itself.
func TestCIEDE2000Laws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawLab(t, "p"), drawLab(t, "q")
		pq, qp := CIEDE2000(p, q), CIEDE2000(q, p)
		if !(math.Abs(pq-qp) <= 1e-9 && pq >= 0) {
			t.Fatalf("%v and %v: %g one way, %g the other", p, q, pq, qp)
		}
		if d := CIEDE2000(p, p); d != 0 {
			t.Fatalf("%v differs from itself by %g", p, d)
		}
		if apart := math.Abs(p.L - q.L); apart > 0.01 && !(pq > 0) {
			t.Fatalf("%v and %v differ by %g", p, q, pq)
		}
	})
}

// go-colorful, as a second opinion on each colour and the next of the table, from Lab with
// a white and a matrix of fewer digits.
func TestCIEDE2000AgreesWithColorful(t *testing.T) {
	tab := testkit.ReadTable(t, "srgb_to_lab_oklab.csv")
	for i, row := range tab.Rows[1:] {
		c, d := colourOf(t, tab, tab.Rows[i]), colourOf(t, tab, row)
		got := CIEDE2000(labOf(c), labOf(d))
		theirs := 100 * asColorful(c).DistanceCIEDE2000(asColorful(d))
		if !(math.Abs(got-theirs) <= 0.02) {
			t.Errorf("%s and %s: %.4f, go-colorful has %.4f", c.Hex(), d.Hex(), got, theirs)
		}
	}
}

func asColorful(c RGB) colorful.Color {
	return colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}
}
