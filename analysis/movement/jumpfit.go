package movement

import "math"

// motion says where a cell's contents come from: (x, y), counted from the middle, was at
// (x, y) + zoom*(x, y) + turn*(-y, x) + (m.x, m.y) before.
type motion struct{ zoom, turn, x, y float64 }

// alignSteps is how often a level's motion is bettered at most, alignEnough the change, in
// cells, at which it stays.
const (
	alignSteps  = 3
	alignEnough = 0.02
)

// align betters a motion by least squares on the gradients (Gauss and Newton; Lucas and
// Kanade 1981, from memory).
func align(before, now *cellPlane, box cellBox, m motion) motion {
	box = box.within(now)
	for range alignSteps {
		var e equations
		e.add(before, now, box, m)
		d, ok := e.solve()
		if !ok {
			return m
		}
		m = motion{m.zoom + d[0], m.turn + d[1], m.x + d[2], m.y + d[3]}
		if !(math.Abs(m.zoom) < 1 && math.Abs(m.turn) < 1) {
			return motion{}
		}
		reach := float64(now.across) / 2
		if math.Abs(d[2])+math.Abs(d[3])+reach*(math.Abs(d[0])+math.Abs(d[1])) < alignEnough {
			break
		}
	}
	return m
}

// source walks along a row of cells and says where each comes from.
type source struct{ x, y, dx, dy float64 }

func (m motion) source(c *cellPlane, x, y int) source {
	cx, cy := float64(c.across-1)/2, float64(c.down-1)/2
	u, v := float64(x)-cx, float64(y)-cy
	return source{
		x: cx + u + m.zoom*u - m.turn*v + m.x, y: cy + v + m.turn*u + m.zoom*v + m.y,
		dx: 1 + m.zoom, dy: m.turn,
	}
}

// At returns lightness and slopes between cells; ok is false outside.
func (c *cellPlane) at(x, y float64) (v, slopeX, slopeY float32, ok bool) {
	if !(x >= 0 && y >= 0 && x < float64(c.across-1) && y < float64(c.down-1)) {
		return 0, 0, 0, false
	}
	ix, iy := int(x), int(y)
	fx, fy := float32(x-float64(ix)), float32(y-float64(iy))
	i := iy*c.across + ix
	upper, lower := c.v[i:i+2:i+2], c.v[i+c.across:i+c.across+2:i+c.across+2]
	top, foot := upper[1]-upper[0], lower[1]-lower[0]
	left, right := lower[0]-upper[0], lower[1]-upper[1]
	return upper[0] + fx*top + fy*(left+fx*(right-left)), top + fy*(foot-top), left + fx*(right-left), true
}

// equations are those of the least squares: a symmetric matrix, its upper half, and the
// right side, by zoom, turn, x and y.
type equations struct{ m [4][5]float64 }

func (e *equations) add(before, now *cellPlane, box cellBox, m motion) {
	var zz, zt, zx, zy, tt, tx, ty, xx, xy, yy, rz, rt, rx, ry float64
	cx, cy := float32(now.across-1)/2, float32(now.down-1)/2
	for y := box.y0; y < box.y1; y++ {
		row, from, v := now.row(y), m.source(now, box.x0, y), float32(y)-cy
		var a [14]float32 // of one row
		for x := box.x0; x < box.x1; x++ {
			was, gx, gy, ok := before.at(from.x, from.y)
			from.x, from.y = from.x+from.dx, from.y+from.dy
			if !ok {
				continue
			}
			u, left := float32(x)-cx, row[x]-was
			gz, gt := gx*u+gy*v, gy*u-gx*v
			a[0], a[1], a[2], a[3] = a[0]+gz*gz, a[1]+gz*gt, a[2]+gz*gx, a[3]+gz*gy
			a[4], a[5], a[6] = a[4]+gt*gt, a[5]+gt*gx, a[6]+gt*gy
			a[7], a[8], a[9] = a[7]+gx*gx, a[8]+gx*gy, a[9]+gy*gy
			a[10], a[11], a[12], a[13] = a[10]+gz*left, a[11]+gt*left, a[12]+gx*left, a[13]+gy*left
		}
		zz, zt, zx, zy = zz+float64(a[0]), zt+float64(a[1]), zx+float64(a[2]), zy+float64(a[3])
		tt, tx, ty = tt+float64(a[4]), tx+float64(a[5]), ty+float64(a[6])
		xx, xy, yy = xx+float64(a[7]), xy+float64(a[8]), yy+float64(a[9])
		rz, rt, rx, ry = rz+float64(a[10]), rt+float64(a[11]), rx+float64(a[12]), ry+float64(a[13])
	}
	e.m = [4][5]float64{{zz, zt, zx, zy, rz}, {zt, tt, tx, ty, rt}, {zx, tx, xx, xy, rx}, {zy, ty, xy, yy, ry}}
}

// solve solves the equations by elimination with pivots.
func (e *equations) solve() (s [4]float64, ok bool) {
	m := &e.m
	for c := range m {
		pivot := c
		for r := c + 1; r < len(m); r++ {
			if math.Abs(m[r][c]) > math.Abs(m[pivot][c]) {
				pivot = r
			}
		}
		if !(math.Abs(m[pivot][c]) > 1e-3) {
			return s, false
		}
		m[c], m[pivot] = m[pivot], m[c]
		for r := range m {
			if r == c {
				continue
			}
			by := m[r][c] / m[c][c]
			for k := c; k < len(m[r]); k++ {
				m[r][k] -= by * m[c][k]
			}
		}
	}
	for c := range m {
		s[c] = m[c][4] / m[c][c]
	}
	return s, true
}
