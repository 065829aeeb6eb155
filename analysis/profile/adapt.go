package profile

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// d65Within is how far an own white may be from D65, relative to it, to be it (our choice): what is
// further off is another white, and the eye adapts to it.
const d65Within = 0.005

// toD65 brings a matrix to XYZ relative to D50 to one relative to D65. Where the profile tells how
// its white was brought to D50, and that white is D65, this is undone; else the white that the
// matrix makes is taken to D65 (BRADFORD), so that lightness is relative to the display's own white.
func toD65(m [3][3]float64, adaptation *[3][3]float64) [3][3]float64 {
	d65 := [3]float64{colour.WhiteX, 1, colour.WhiteZ}
	if adaptation != nil {
		if back, ok := inverse(*adaptation); ok {
			own := product(back, m)
			if near(whiteOf(own), d65) {
				return own
			}
		}
	}
	return product(bradford(whiteOf(m), d65), m)
}

// ToD65 brings a matrix to XYZ relative to any white to one relative to D65 (BRADFORD).
func ToD65(m [3][3]float64) [3][3]float64 { return toD65(m, nil) }

func near(p, q [3]float64) bool {
	for i := range p {
		if !(math.Abs(p[i]/q[i]-1) <= d65Within) {
			return false
		}
	}
	return true
}

// whiteOf returns the sum of the primaries.
func whiteOf(m [3][3]float64) (white [3]float64) {
	for i, row := range m {
		white[i] = row[0] + row[1] + row[2]
	}
	return white
}

// cones are the responses of BRADFORD.
var cones = [3][3]float64{
	{0.8951, 0.2664, -0.1614},
	{-0.7502, 1.7135, 0.0367},
	{0.0389, -0.0685, 1.0296},
}

// bradford returns the matrix that takes colours seen under one white to those under another.
func bradford(from, to [3]float64) [3][3]float64 {
	p, q := times(cones, from), times(cones, to)
	back, _ := inverse(cones)
	var scaled [3][3]float64
	for i := range scaled {
		for j := range scaled[i] {
			scaled[i][j] = q[i] / p[i] * cones[i][j]
		}
	}
	return product(back, scaled)
}

func times(m [3][3]float64, v [3]float64) (to [3]float64) {
	for i, row := range m {
		to[i] = row[0]*v[0] + row[1]*v[1] + row[2]*v[2]
	}
	return to
}

func product(m, n [3][3]float64) (p [3][3]float64) {
	for i := range p {
		for j := range p[i] {
			for k := range 3 {
				p[i][j] += m[i][k] * n[k][j]
			}
		}
	}
	return p
}

// inverse returns what turns back; ok is false where nothing does.
func inverse(m [3][3]float64) (inverse [3][3]float64, ok bool) {
	minor := func(row, column int) float64 {
		a, b, c, d := (row+1)%3, (row+2)%3, (column+1)%3, (column+2)%3
		return m[a][c]*m[b][d] - m[a][d]*m[b][c]
	}
	d := m[0][0]*minor(0, 0) + m[0][1]*minor(0, 1) + m[0][2]*minor(0, 2)
	if !(math.Abs(d) > 1e-6) {
		return inverse, false
	}
	for i := range inverse {
		for j := range inverse[i] {
			inverse[i][j] = minor(j, i) / d
		}
	}
	return inverse, true
}
