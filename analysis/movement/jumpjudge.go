package movement

import "math"

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
	ax, ay := c.slope(k)
	bx, by := c.slope(k + 1)
	cx, cy := c.slope(k + c.across)
	dx, dy := c.slope(k + c.across + 1)
	topX, footX := ax+fx*(bx-ax), cx+fx*(dx-cx)
	topY, footY := ay+fx*(by-ay), cy+fx*(dy-cy)
	gx, gy := topX+fy*(footX-topX), topY+fy*(footY-topY)
	zoom, turn := float32(from.dx), float32(from.dy)
	gx, gy = zoom*gx+turn*gy, zoom*gy-turn*gx
	nx, ny := now.slope(i)
	return slopesAlike(gx*gx+gy*gy, nx*nx+ny*ny, gx*nx+gy*ny)
}

// judgeFit says what a motion leaves. moved is before, or before mirrored.
func judgeFit(moved, before, now *cellPlane, box cellBox, m motion) fitted {
	box = box.within(now)
	var left, change, edgeLeft, edgeChange, by float64
	count, all, shown, known := 0, 0, 0, 0
	for y := box.y0; y < box.y1; y++ {
		from, is := m.source(now, box.x0, y), now.around(y)
		for x := box.x0; x < box.x1; x++ {
			i := y*now.across + x
			nx, ny := is.slope(x)
			edge := nx*nx+ny*ny > edgeSlope*edgeSlope
			if edge {
				all++
			}
			was, gx, gy, ok := moved.at(from.x, from.y)
			dx, dy := from.x-float64(x), from.y-float64(y)
			if !ok {
				from.x, from.y = from.x+from.dx, from.y+from.dy
				continue
			}
			l, c := float64(now.v[i]-was), float64(now.v[i]-before.v[i])
			count++
			left, change, by = left+l*l, change+c*c, by+dx*dx+dy*dy
			if edge {
				shown++
				if moved.edgeAt(from, now, i) {
					known++
				}
			}
			if edge || gx*gx+gy*gy > edgeSlope*edgeSlope {
				edgeLeft, edgeChange = edgeLeft+l*l, edgeChange+c*c
			}
			from.x, from.y = from.x+from.dx, from.y+from.dy
		}
	}
	return fitted{
		shown: float64(shown) / float64(max(all, 1)), known: float64(known) / float64(max(shown, 1)),
		left: left / max(change, 1), edges: edgeLeft / max(edgeChange, 1),
		by: math.Sqrt(by / float64(max(count, 1))), growth: 1 / math.Hypot(1+m.zoom, m.turn),
	}
}
