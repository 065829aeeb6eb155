package movement

import (
	"image"
	"math"
)

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
func align(before, now *cellPlane, box image.Rectangle, m motion) motion {
	box = box.Intersect(now.inner())
	for range alignSteps {
		e := equationsOf(before, now, box, m)
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

// at returns lightness and slopes between cells; ok is false outside.
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
type equations [4][5]float64

func equationsOf(before, now *cellPlane, box image.Rectangle, m motion) equations {
	var s [14]float64
	cx, cy := float32(now.across-1)/2, float32(now.down-1)/2
	for y := box.Min.Y; y < box.Max.Y; y++ {
		row, from, v := now.row(y), m.source(now, box.Min.X, y), float32(y)-cy
		var a [len(s)]float32 // of one row
		for x := box.Min.X; x < box.Max.X; x++ {
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
		for i, v := range a {
			s[i] += float64(v)
		}
	}
	return equations{
		{s[0], s[1], s[2], s[3], s[10]}, {s[1], s[4], s[5], s[6], s[11]},
		{s[2], s[5], s[7], s[8], s[12]}, {s[3], s[6], s[8], s[9], s[13]},
	}
}

// solve solves the equations by elimination with pivots.
func (m *equations) solve() (s [4]float64, ok bool) {
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

// fitted is how well a motion explains the change.
type fitted struct {
	shown  float64 // share of the edges of now whose place was in the picture before
	known  float64 // share of these that the motion explains by an edge of that direction
	left   float64 // part of the change's energy there that the motion doesn't explain
	edges  float64 // the same, of cells on edges only
	by     float64 // cells, root mean square
	growth float64 // size of what is shown, by its size before
}

// explains says whether the motion explains the change, and better than a curve of
// lightness does, which leaves the part curve of it.
func (f fitted) explains(curve float64) bool {
	return f.shown >= jumpShown && f.known >= jumpKnown && f.left < jumpFits && f.edges < jumpFits &&
		f.left < curve && f.growth > 1/jumpGrowth && f.growth < jumpGrowth
}

// edgeAt reports whether the slope at the source, turned as the picture, has the direction
// of the slope of now's cell i.
func (c *cellPlane) edgeAt(from source, now *cellPlane, i int) bool {
	ix, iy := int(from.x), int(from.y)
	if ix < 1 || iy < 1 || ix >= c.across-2 || iy >= c.down-2 {
		return false
	}
	fx, fy := float32(from.x-float64(ix)), float32(from.y-float64(iy))
	k := iy*c.across + ix
	mixed := func(a, b, c, d float32) float32 {
		top, foot := a+fx*(b-a), c+fx*(d-c)
		return top + fy*(foot-top)
	}
	ax, ay := c.slope(k)
	bx, by := c.slope(k + 1)
	cx, cy := c.slope(k + c.across)
	dx, dy := c.slope(k + c.across + 1)
	gx, gy := mixed(ax, bx, cx, dx), mixed(ay, by, cy, dy)
	zoom, turn := float32(from.dx), float32(from.dy)
	gx, gy = zoom*gx+turn*gy, zoom*gy-turn*gx
	nx, ny := now.slope(i)
	return slopesAlike(gx*gx+gy*gy, nx*nx+ny*ny, gx*nx+gy*ny)
}

// judgeFit says what a motion leaves. moved is before, or before mirrored.
func judgeFit(moved, before, now *cellPlane, box image.Rectangle, m motion) fitted {
	box = box.Intersect(now.inner())
	var left, change, edgeLeft, edgeChange, by float64
	count, all, shown, known := 0, 0, 0, 0
	for y := box.Min.Y; y < box.Max.Y; y++ {
		from, is := m.source(now, box.Min.X, y), now.around(y)
		for x := box.Min.X; x < box.Max.X; x++ {
			i := y*now.across + x
			nx, ny := is.slope(x)
			edge := nx*nx+ny*ny > edgeSlope*edgeSlope
			if edge {
				all++
			}
			at := from
			from.x, from.y = from.x+from.dx, from.y+from.dy
			was, gx, gy, ok := moved.at(at.x, at.y)
			if !ok {
				continue
			}
			dx, dy := at.x-float64(x), at.y-float64(y)
			l, c := float64(now.v[i]-was), float64(now.v[i]-before.v[i])
			count++
			left, change, by = left+l*l, change+c*c, by+dx*dx+dy*dy
			if edge {
				shown++
				if moved.edgeAt(at, now, i) {
					known++
				}
			}
			if edge || gx*gx+gy*gy > edgeSlope*edgeSlope {
				edgeLeft, edgeChange = edgeLeft+l*l, edgeChange+c*c
			}
		}
	}
	return fitted{
		shown: float64(shown) / float64(max(all, 1)), known: float64(known) / float64(max(shown, 1)),
		left: left / max(change, 1), edges: edgeLeft / max(edgeChange, 1),
		by: math.Sqrt(by / float64(max(count, 1))), growth: 1 / math.Hypot(1+m.zoom, m.turn),
	}
}
