package families

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
)

// The mixture that is as light as a colour is found as bisection to the last bit finds it: what is mixed
// is recognised as mixed, and what isn't lies as far beside.
func TestMixturesAsBisectionHasThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := rapid.Float64Range(0, 1)
		light := func(name string) (c [3]float64) {
			for k := range c {
				c[k] = part.Draw(t, name)
			}
			return c
		}
		m := mixture{light: light("light")}
		for k := range m.dark { // no channel gets lighter, so that there is one such mixture
			m.dark[k] = m.light[k] * part.Draw(t, "dark")
		}
		p, q, own := labOfLight(m.light), labOfLight(m.dark), light("own")
		c := labOfLight(own)
		coded := m.coded()
		nearest := func(at func(t float64) colour.Lab) float64 {
			low, high := 0.0, 1.0
			for range 50 {
				if half := (low + high) / 2; at(half).L > c.L {
					low = half
				} else {
					high = half
				}
			}
			return math.Sqrt(squareApart(at(high), c))
		}
		if got, want := math.Sqrt(squareApart(labOfLight(m.at(m.asDark(own))), c)), nearest(func(t float64) colour.Lab { return labOfLight(m.at(t)) }); math.Abs(got-want) > 1e-3 {
			t.Fatalf("in light: %v from the mixtures, want %v", got, want)
		}
		if got, want := coded.from(c, p.L, q.L), nearest(coded.at); math.Abs(got-want) > 1 {
			t.Fatalf("in codes: %v from the mixtures, want %v", got, want)
		}
	})
}
