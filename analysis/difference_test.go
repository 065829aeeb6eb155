package analysis

import (
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"pgregory.net/rapid"
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
// another white of fewer digits. It has its own way with hues 180 degrees apart (it misses
// pair 10 of SHARMA), so neighbours that are nearly opposite are left out.
func TestCIEDE2000AgreesWithColorful(t *testing.T) {
	tab := readTable(t, "srgb_to_lab_oklab.csv")
	compared := 0
	for i, row := range tab.rows[1:] {
		c, d := tab.colour(tab.rows[i]), tab.colour(row)
		p, q := SpotOf(c).Lab, SpotOf(d).Lab
		opposite := math.Abs(math.Abs(p.Hue()-q.Hue())-180) < 2
		if opposite || p.Chroma() < 1 || q.Chroma() < 1 {
			continue
		}
		compared++
		theirs := 100 * asColorful(c).DistanceCIEDE2000(asColorful(d))
		if got := CIEDE2000(p, q); !(math.Abs(got-theirs) <= 0.05) {
			t.Errorf("%s and %s: %.4f, go-colorful has %.4f", c.Hex(), d.Hex(), got, theirs)
		}
	}
	if compared < 20 {
		t.Errorf("only %d pairs are compared", compared)
	}
}

func asColorful(c RGB) colorful.Color {
	return colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}
}
