package movement

import "math"

// certain is the weight of what is not in question, among the equations.
const certain = 1e12

// blur returns by how many cells the places of p.at that both pictures show may be off at most,
// as far as what differs is noise: one standard deviation, from the inverse of the equations'
// matrix.
func (e *equations) blur(spread float64, p pairing, m Transform) float64 {
	var inverse [4][4]float64
	for i := range inverse {
		unit := *e
		for r := range unit {
			unit[r][4] = 0
		}
		unit[i][4] = 1
		column, ok := unit.solve()
		if !ok {
			return math.Inf(1)
		}
		inverse[i] = column
	}
	most := 0.0
	for v := -1.0; v <= 1; v += 0.25 {
		for u := -1.0; u <= 1; u += 0.25 {
			x, y := u*p.halfX, v*p.halfY
			if ax, ay := m.Apply(x, y); math.Abs(ax) > p.halfX || math.Abs(ay) > p.halfY {
				continue
			}
			if m.mirrored {
				x = -x
			}
			across, down := [4]float64{x, -y, 1, 0}, [4]float64{y, x, 0, 1} // by a, b, x and y
			variance := 0.0
			for i, row := range inverse {
				for k, c := range row {
					variance += c * (across[i]*across[k] + down[i]*down[k])
				}
			}
			most = max(most, variance)
		}
	}
	return spread * math.Sqrt(most)
}
