package movement

import "math"

// Limits of what counts as an edge (our choice, common practice, no source).
const (
	edgeSlope  = 4.0  // steps of lightness from a cell to the next
	edgeAlike  = 0.93 // cosine between two slopes of one direction, either way round
	edgeFaint  = 0.15 // part of its slope that an edge keeps at least, to be the same
	patches    = 8    // along each side, into which the picture is cut
	patchEdges = 12   // fewer edges say nothing about a patch
)

// edgeCount compares the edges of two pictures.
type edgeCount struct {
	before, now      int     // how many cells lie on edges
	outside          float64 // share of the edges before that lie outside of the changed part
	kept             float64 // share of those inside that are as they were
	alike            float64 // correlation of all slopes inside, place by place
	heldOld, heldNew int     // how many of before, of now, keep place and direction in any tone
	patch            [patches * patches]struct{ before, kept int }
}

// changedBox returns the part of the picture that holds all changed cells, with a cell
// around, and the share of changed cells.
func changedBox(before, now *cellPlane) (box cellBox, share float64) {
	box = cellBox{now.across, now.down, 0, 0}
	count := 0
	for y := range now.down {
		was, is := before.row(y), now.row(y)
		first, last := now.across, -1
		for x, v := range is {
			if d := v - was[x]; d > jumpChange || d < -jumpChange {
				first, last = min(first, x), x
				count++
			}
		}
		if last >= 0 {
			box.x0, box.x1 = min(box.x0, first-1), max(box.x1, last+2)
			box.y0, box.y1 = min(box.y0, y-1), max(box.y1, y+2)
		}
	}
	box = cellBox{max(box.x0, 0), max(box.y0, 0), min(box.x1, now.across), min(box.y1, now.down)}
	return box, float64(count) / float64(len(now.v))
}

func compareEdges(before, now *cellPlane, box cellBox) (e edgeCount) {
	outside, kept := 0, 0
	var cross, oldEnergy, newEnergy float64
	for y := 1; y < now.down-1; y++ {
		was, is := before.around(y), now.around(y)
		for x := 1; x < now.across-1; x++ {
			bx, by := was.slope(x)
			nx, ny := is.slope(x)
			b, n, dot := bx*bx+by*by, nx*nx+ny*ny, bx*nx+by*ny
			if b <= edgeSlope*edgeSlope && n <= edgeSlope*edgeSlope {
				continue
			}
			cross, oldEnergy, newEnergy = cross+float64(dot), oldEnergy+float64(b), newEnergy+float64(n)
			held := 0
			if slopesAlike(b, n, dot) {
				held = 1
			}
			if n > edgeSlope*edgeSlope {
				e.now++
				e.heldNew += held
			}
			if b <= edgeSlope*edgeSlope {
				continue
			}
			e.before++
			e.heldOld += held
			patch := &e.patch[y*patches/now.down*patches+x*patches/now.across]
			patch.before++
			d := is.here[x] - was.here[x]
			same := held == 1 && d <= jumpKept && d >= -jumpKept
			if same {
				patch.kept++
			}
			if !box.holds(x, y) {
				outside++
			} else if same {
				kept++
			}
		}
	}
	e.outside = float64(outside) / float64(max(e.before, 1))
	e.kept = float64(kept) / float64(max(e.before-outside, 1))
	e.alike = cross / max(math.Sqrt(oldEnergy*newEnergy), 1)
	return e
}

// threeRows are a row of cells and those above and below.
type threeRows struct{ above, here, below []float32 }

func (c *cellPlane) around(y int) threeRows {
	return threeRows{c.row(y - 1), c.row(y)[:c.across], c.row(y + 1)}
}

// slope returns how much lightness rises from a cell inside to the next, across and down.
func (r *threeRows) slope(x int) (across, down float32) {
	return (r.here[x+1] - r.here[x-1]) / 2, (r.below[x] - r.above[x]) / 2
}

// edge reports whether a cell inside lies on an edge.
func (c *cellPlane) edge(i int) bool {
	x, y := c.slope(i)
	return x*x+y*y > edgeSlope*edgeSlope
}

// edgesAlike reports whether a cell's edge keeps its direction, though perhaps not its tone.
func edgesAlike(before, now *cellPlane, i int) bool {
	bx, by := before.slope(i)
	nx, ny := now.slope(i)
	return slopesAlike(bx*bx+by*by, nx*nx+ny*ny, bx*nx+by*ny)
}

// slopesAlike reports whether two slopes, given by their squares and their scalar product,
// have one direction, either way round.
func slopesAlike(a, b, dot float32) bool {
	return dot*dot > edgeAlike*edgeAlike*a*b && a > edgeFaint*edgeFaint*b && b > edgeFaint*edgeFaint*a
}

// changedBy reports whether a cell has changed by more than limit.
func changedBy(before, now *cellPlane, i int, limit float32) bool {
	d := now.v[i] - before.v[i]
	return d > limit || d < -limit
}

// held returns the share of edges, of the picture that has kept more of them, that keep
// place and direction: a layer shown adds edges, a layer hidden takes some.
func (e *edgeCount) held() float64 {
	return max(float64(e.heldOld)/float64(max(e.before, 1)), float64(e.heldNew)/float64(max(e.now, 1)))
}

// other reports whether the edges are those of another place: hardly one of either picture
// is where it is in the other, and no patch is as it was.
func (e *edgeCount) other() bool {
	if e.held() > jumpOther || math.Abs(e.alike) > jumpAlike {
		return false
	}
	for _, p := range e.patch {
		if p.before >= patchEdges && float64(p.kept) > jumpPatch*float64(p.before) {
			return false
		}
	}
	return true
}
