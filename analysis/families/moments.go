package families

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// moments are the count, sums and sums of products of colours, in L*a*b* times cellLab:
// whole numbers, so that they add up the same in any order.
type moments struct {
	n       int64
	sum     [3]int64
	product [3][3]int64 // of channels i <= k only
}

// addAt adds the colour that a cell has in a plane.
func (m *moments) addAt(plane *[3][]int32, cell int) {
	m.n++
	for i := range plane {
		v := int64(plane[i][cell])
		m.sum[i] += v
		for k := i; k < 3; k++ {
			m.product[i][k] += v * int64(plane[k][cell])
		}
	}
}

// join adds all of o.
func (m *moments) join(o *moments) {
	m.n += o.n
	for i := range m.sum {
		m.sum[i] += o.sum[i]
		for k := i; k < 3; k++ {
			m.product[i][k] += o.product[i][k]
		}
	}
}

// mean returns the mean colour.
func (m *moments) mean() colour.Lab { return meanLab(m.sum, int(m.n)) }

// meanLab returns the mean of so many colours that add up to sum, in 1/cellLab; black for none.
func meanLab(sum [3]int64, count int) colour.Lab {
	n := float64(max(count, 1)) * cellLab
	return colour.Lab{L: float64(sum[0]) / n, A: float64(sum[1]) / n, B: float64(sum[2]) / n}
}

// covariance returns the colours' covariance.
func (m *moments) covariance() (cov [3][3]float64) {
	mean := channels(m.mean())
	n := float64(max(m.n, 1)) * cellLab * cellLab
	for i := range cov {
		for k := i; k < 3; k++ {
			cov[i][k] = float64(m.product[i][k])/n - mean[i]*mean[k]
			cov[k][i] = cov[i][k]
		}
	}
	return cov
}

// along returns the variance in a direction given as a unit vector.
func (m *moments) along(axis colour.Lab) float64 {
	cov, way, v := m.covariance(), channels(axis), 0.0
	for i := range way {
		for k := range way {
			v += way[i] * cov[i][k] * way[k]
		}
	}
	return max(v, 0)
}

// apart returns the distance of two means.
func (m *moments) apart(o *moments) float64 { return math.Sqrt(squareApart(m.mean(), o.mean())) }

// toward returns the direction from o's mean to m's, as a unit vector.
func (m *moments) toward(o *moments) colour.Lab {
	return over(minus(m.mean(), o.mean()), max(m.apart(o), 1e-9))
}

// separation returns the share of the variance of two masses together, in the direction from
// one to the other, that lies between them: 1 for two flat colours, 0.75 for a ramp cut in
// the middle (OTSU's criterion).
func (m *moments) separation(o *moments) float64 {
	axis, size := m.toward(o), m.apart(o)
	a, b := float64(m.n), float64(o.n)
	between := a * b / (a + b) * size * size
	within := a*m.along(axis) + b*o.along(axis)
	if between+within <= 0 {
		return 0
	}
	return between / (between + within)
}

// mainAxis returns the direction in which the colours differ most, as a unit vector toward
// the lighter; false if they don't differ.
func (m *moments) mainAxis() (axis colour.Lab, ok bool) {
	cov := m.covariance()
	axis = colour.Lab{L: 1, A: 0.1, B: 0.1}
	for range 30 { // power iteration
		next := [3]float64{}
		for i, row := range cov {
			next[i] = dot(labOf(row), axis)
		}
		size := dot(labOf(next), labOf(next))
		if size < 1e-9 {
			return axis, false
		}
		axis = over(labOf(next), math.Sqrt(size))
	}
	if axis.L < 0 {
		axis = over(axis, -1)
	}
	return axis, true
}

// Colours as vectors in L*a*b*.

func labOf(c [3]float64) colour.Lab    { return colour.Lab{L: c[0], A: c[1], B: c[2]} }
func channels(c colour.Lab) [3]float64 { return [3]float64{c.L, c.A, c.B} }
func minus(p, q colour.Lab) colour.Lab { return colour.Lab{L: p.L - q.L, A: p.A - q.A, B: p.B - q.B} }
func over(c colour.Lab, by float64) colour.Lab {
	return colour.Lab{L: c.L / by, A: c.A / by, B: c.B / by}
}
func dot(p, q colour.Lab) float64         { return p.L*q.L + p.A*q.A + p.B*q.B }
func squareApart(p, q colour.Lab) float64 { return dot(minus(p, q), minus(p, q)) }

// fromLine says how far along a way from a colour another lies, 1 at its end, and the square
// of how far beside it.
func fromLine(c, from, way colour.Lab) (t, square float64) {
	d := minus(c, from)
	t = dot(d, way) / max(dot(way, way), 1e-9)
	d = minus(d, colour.Lab{L: t * way.L, A: t * way.A, B: t * way.B})
	return t, dot(d, d)
}
