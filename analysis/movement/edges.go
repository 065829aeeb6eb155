package movement

import (
	"image"
	"math"
)

// Limits of what counts as a change (our choice). Lightness differences are in steps of
// Reading.Grey, 2.55 to a unit of L*.
const (
	changedCell = 3.0  // of a cell: it has changed
	changedFew  = 0.01 // share of changed cells up to which nothing has moved
	changedMost = 0.5  // the same: a picture without edges may be another
	curveMost   = 0.5  // part of a change that a curve of lightness leaves unexplained, for it to be none
	keptCell    = 2.0  // of a cell: it is as it was
)

// Limits of what counts as an edge, and of what edges say (our choice).
const (
	edgeSlope   = 4.0  // steps of lightness from a cell to the next
	edgeAlike   = 0.93 // cosine between two slopes of one direction, either way round
	edgeFaint   = 0.15 // part of its slope that an edge keeps at least, to be the same
	edgesLeast  = 40   // fewer edges say nothing about where the picture is
	edgesElse   = 0.3  // share of edges outside of the changed part that says: something local
	edgesStay   = 0.9  // share of edges kept within the changed part that says: painted over
	edgesHeld   = 0.85 // share of edges that keep place and direction: a new tone, not a new place
	edgesStand  = 0.6  // the same: a motion, if any, may be small
	edgesBare   = 0.05 // as many edges as there were, and fewer than edgesLeast: nothing is left of them
	edgesOther  = 0.4  // share of edges that keep place and direction by chance
	edgesSlopes = 0.2  // correlation of slopes that isn't by chance
	patches     = 8    // along each side, into which the picture is cut
	patchEdges  = 12   // fewer edges say nothing about a patch
	patchStays  = 0.8  // of one patch's edges are as they were: the patch has not moved
	filledTone  = 0.7  // share of the change that has one lightness: it may be a fill
	filledLoose = 0.15 // share of new edges that don't bound a fill: it is none
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
func changedBox(before, now *cellPlane) (box image.Rectangle, share float64) {
	count := 0
	for y := range now.down {
		was, is := before.row(y), now.row(y)
		first, last := now.across, -1
		for x, v := range is {
			if d := v - was[x]; d > changedCell || d < -changedCell {
				first, last = min(first, x), x
				count++
			}
		}
		if last >= 0 {
			box = box.Union(image.Rect(first-1, y-1, last+2, y+2))
		}
	}
	return box.Intersect(now.bounds()), float64(count) / float64(len(now.v))
}

func compareEdges(before, now *cellPlane, box image.Rectangle) (e edgeCount) {
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
			same := held == 1 && d <= keptCell && d >= -keptCell
			if same {
				patch.kept++
			}
			if !image.Pt(x, y).In(box) {
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

// bare reports whether there was a picture of which nothing is left, and nothing else is seen.
func (e *edgeCount) bare() bool {
	return e.before >= edgesLeast && e.now < edgesLeast && float64(e.now) <= edgesBare*float64(e.before)
}

// other reports whether the edges are those of another place: hardly one of either picture
// is where it is in the other, and no patch is as it was.
func (e *edgeCount) other() bool {
	if e.held() > edgesOther || math.Abs(e.alike) > edgesSlopes {
		return false
	}
	for _, p := range e.patch {
		if p.before >= patchEdges && float64(p.kept) > patchStays*float64(p.before) {
			return false
		}
	}
	return true
}

// curveBins is by how many steps of lightness a curve or a fill is looked for.
const curveBins = 64

// fillBorder is how many of 25 cells around a fill's border lie on each side at least; what
// lies between them is blurred.
const fillBorder = 4

// curveBin returns the step of a cell's lightness.
func curveBin(v float32) int { return min(int(v)*curveBins/256, curveBins-1) }

// curveLeft returns which part of a change is left unexplained if the new lightness follows
// from the old one, as after a change of levels or a plain layer over all.
func curveLeft(before, now *cellPlane, box image.Rectangle) float64 {
	var sum, square [curveBins]float64
	var count [curveBins]int
	change := 0.0
	for y := box.Min.Y; y < box.Max.Y; y++ {
		was, is := before.row(y), now.row(y)
		for x := box.Min.X; x < box.Max.X; x++ {
			d := float64(is[x] - was[x])
			bin := curveBin(was[x])
			sum[bin] += d
			square[bin] += d * d
			count[bin]++
			change += d * d
		}
	}
	left := 0.0
	for b, n := range count {
		if n > 0 {
			left += square[b] - sum[b]*sum[b]/float64(n)
		}
	}
	return left / max(change, 1)
}

// filled reports whether all that has changed is that some part now has one tone: most of
// what has changed has it, and new edges run along its border with what has not changed.
func filled(before, now *cellPlane, box image.Rectangle) bool {
	var bins [curveBins]int
	box = box.Intersect(now.inner())
	count, tone := 0, 1
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if i := y*now.across + x; changedBy(before, now, i, changedCell) {
				count++
				bins[curveBin(now.v[i])]++
			}
		}
	}
	for i := 2; i < curveBins; i++ {
		if bins[i-1]+bins[i] > bins[tone-1]+bins[tone] {
			tone = i
		}
	}
	if float64(bins[tone-1]+bins[tone]) < filledTone*float64(count) {
		return false
	}
	edges, loose := 0, 0
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if i := y*now.across + x; now.edge(i) && !edgesAlike(before, now, i) {
				edges++
				if !bounds(before, now, x, y, tone) {
					loose++
				}
			}
		}
	}
	return float64(loose) <= filledLoose*float64(edges)
}

// bounds reports whether a cell lies between what has changed to a tone, the step given or
// the one below, and what has not changed, up to six cells off: so wide is a blurred edge.
func bounds(before, now *cellPlane, x, y, tone int) bool {
	inside, outside := 0, 0
	for yy := y - 6; yy <= y+6; yy += 3 {
		for xx := x - 6; xx <= x+6; xx += 3 {
			if xx < 0 || yy < 0 || xx >= now.across || yy >= now.down {
				continue
			}
			i := yy*now.across + xx
			if !changedBy(before, now, i, changedCell) {
				outside++
			} else if bin := curveBin(now.v[i]); bin == tone || bin == tone-1 {
				inside++
			}
		}
	}
	return min(inside, outside) >= fillBorder
}
