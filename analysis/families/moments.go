package families

import "math"

// moments are the count, sums and sums of products of colours, in L*a*b* times cellLab:
// whole numbers, so that they add up the same in any order.
type moments struct {
	n       int64
	sum     [3]int64
	product [3][3]int64 // of channels i <= k only
}

// add adds a colour.
func (m *moments) add(l, a, b int32) {
	v := [3]int64{int64(l), int64(a), int64(b)}
	m.n++
	for i := range v {
		m.sum[i] += v[i]
		for k := i; k < 3; k++ {
			m.product[i][k] += v[i] * v[k]
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
func (m *moments) mean() (c [3]float64) {
	n := float64(max(m.n, 1)) * cellLab
	for i := range c {
		c[i] = float64(m.sum[i]) / n
	}
	return c
}

// covariance returns the colours' covariance.
func (m *moments) covariance() (cov [3][3]float64) {
	mean := m.mean()
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
func (m *moments) along(axis [3]float64) float64 {
	cov, v := m.covariance(), 0.0
	for i := range axis {
		for k := range axis {
			v += axis[i] * cov[i][k] * axis[k]
		}
	}
	return max(v, 0)
}

// apart returns the distance of two means.
func (m *moments) apart(o *moments) float64 {
	_, size := m.toward(o)
	return size
}

// toward returns the direction from o's mean to m's, as a unit vector, and their distance.
func (m *moments) toward(o *moments) (axis [3]float64, size float64) {
	p, q := m.mean(), o.mean()
	for i := range axis {
		axis[i] = p[i] - q[i]
		size += axis[i] * axis[i]
	}
	size = math.Sqrt(size)
	for i := range axis {
		axis[i] /= max(size, 1e-9)
	}
	return axis, size
}

// separation returns the share of the variance of two masses together, in the direction from
// one to the other, that lies between them: 1 for two flat colours, 0.75 for a ramp cut in
// the middle (OTSU's criterion).
func (m *moments) separation(o *moments) float64 {
	axis, size := m.toward(o)
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
func (m *moments) mainAxis() (axis [3]float64, ok bool) {
	cov := m.covariance()
	axis = [3]float64{1, 0.1, 0.1}
	for range 30 { // power iteration
		var next [3]float64
		size := 0.0
		for i := range next {
			for k := range axis {
				next[i] += cov[i][k] * axis[k]
			}
			size += next[i] * next[i]
		}
		if size < 1e-9 {
			return axis, false
		}
		for i := range next {
			axis[i] = next[i] / math.Sqrt(size)
		}
	}
	if axis[0] < 0 {
		for i := range axis {
			axis[i] = -axis[i]
		}
	}
	return axis, true
}
