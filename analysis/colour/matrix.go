package colour

import "math"

// matrix turns three numbers of a colour into three others.
type matrix [3][3]float64

func (m *matrix) times(x, y, z float64) (a, b, c float64) {
	return m[0][0]*x + m[0][1]*y + m[0][2]*z,
		m[1][0]*x + m[1][1]*y + m[1][2]*z,
		m[2][0]*x + m[2][1]*y + m[2][2]*z
}

// of returns the matrix that turns as other does, and then as m does.
func (m matrix) of(other matrix) (product matrix) {
	for i := range product {
		for j := range product[i] {
			for k := range 3 {
				product[i][j] += m[i][k] * other[k][j]
			}
		}
	}
	return product
}

// minor is the determinant of m without a row and a column, with its sign.
func (m *matrix) minor(row, column int) float64 {
	a, b, c, d := (row+1)%3, (row+2)%3, (column+1)%3, (column+2)%3
	return m[a][c]*m[b][d] - m[a][d]*m[b][c]
}

func (m *matrix) determinant() float64 {
	return m[0][0]*m.minor(0, 0) + m[0][1]*m.minor(0, 1) + m[0][2]*m.minor(0, 2)
}

// inverse returns what turns back; ok is false where nothing does.
func (m *matrix) inverse() (inverse matrix, ok bool) {
	d := m.determinant()
	if !(math.Abs(d) > 1e-12) {
		return inverse, false
	}
	for i := range inverse {
		for j := range inverse[i] {
			inverse[i][j] = m.minor(j, i) / d
		}
	}
	return inverse, true
}
