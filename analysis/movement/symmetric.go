package movement

import "math"

// symmetricRough is the part of the edges that lie about where a picture turned or mirrored in itself
// would have them, for it to be looked at closer (our choice).
const symmetricRough = 0.5

// symmetric reports whether the picture before is alike when it is turned or mirrored in itself: then no
// more than new strokes tells a move from the same one after that. A picture that is turned or mirrored
// into itself keeps the centre and the axes of its edges.
func (f *Finder) symmetric() bool {
	x, y, degrees := f.before.plane[min(searchRough, f.before.levels-1)].axis(f.aligner.halfX, f.aligner.halfY)
	f.aligner.now = f.before
	defer func() { f.aligner.now = f.now }()
	for _, t := range [4]Transform{
		Mirror(x).Compose(Turn(2*degrees, x, y)), Mirror(x).Compose(Turn(2*degrees+180, x, y)), Turn(180, x, y), Turn(90, x, y),
	} {
		if c := f.aligner.check(t, searchRough); min(c.kept, c.old) < symmetricRough {
			continue
		}
		a := f.aligner.align(t, searchCoarse, alignSteps, false)
		if !a.ok {
			continue
		}
		if c := f.aligner.check(a.by, searchCoarse); min(c.kept, c.old) > sureAlone {
			return true
		}
	}
	return false
}

// axis returns the centre of a picture's edges, in finest cells from the middle, and the angle in
// degrees of the axis along which they are spread most.
func (c *cellPlane) axis(halfX, halfY float64) (x, y, degrees float64) {
	var n, xx, xy, yy float64
	for v := 1; v < c.down-1; v++ {
		for u := 1; u < c.across-1; u++ {
			if c.edge(v*c.across + u) {
				p, q := (float64(u)+0.5)*c.side-halfX, (float64(v)+0.5)*c.side-halfY
				n, x, y, xx, xy, yy = n+1, x+p, y+q, xx+p*p, xy+p*q, yy+q*q
			}
		}
	}
	n = max(n, 1)
	x, y = x/n, y/n
	return x, y, math.Atan2(2*(xy/n-x*y), xx/n-x*x-yy/n+y*y) * 90 / math.Pi
}
