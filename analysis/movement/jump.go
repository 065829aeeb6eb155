package movement

import (
	"image"

	"app.tonedesk/analysis"
)

// Limits of Jump. The method is common practice (gradient-based motion fit, block search,
// compared edges); the limits are our choice, no source. Lightness differences are in
// steps of Reading.Grey, 2.55 to a unit of L*.
const (
	jumpChange  = 3.0  // of a cell: it has changed
	jumpFew     = 0.01 // share of changed cells up to which nothing has jumped
	jumpKept    = 2.0  // of a cell: it is as it was
	jumpElse    = 0.3  // share of edges outside of the changed part that says: something local
	jumpStill   = 0.9  // share of edges kept within the changed part that says: painted over
	jumpFits    = 0.5  // part of a change that a motion, or a curve, may leave unexplained
	jumpLost    = 0.8  // the same at a coarser level: no use to look closer
	jumpShown   = 0.35 // share of the edges that both pictures must show, for a motion
	jumpKnown   = 0.7  // share of these that a motion must explain
	jumpGrowth  = 2.0  // the largest zoom, in or out, of a motion
	jumpHeld    = 0.85 // share of edges that keep place and direction: a new tone, not a new place
	jumpStand   = 0.6  // the same: a motion, if any, is small
	jumpLeast   = 1.5  // pixels: the least motion, root mean square
	jumpOther   = 0.4  // share of edges that keep place and direction by chance
	jumpAlike   = 0.2  // correlation of slopes that isn't by chance
	jumpPatch   = 0.8  // of one patch's edges are as they were: the patch has not moved
	jumpEdges   = 40   // fewer edges say nothing about where the picture is
	jumpOneTone = 0.7  // share of the change that has one lightness: it may be a fill
	jumpLoose   = 0.15 // share of new edges that don't bound a fill: it is none
)

// Jump tells when the whole picture has jumped from one reading to the next, because the
// painter panned, zoomed, turned or mirrored it or opened another, so that places marked in
// it are no longer on what they were put on. Painting is no jump: a dab, a fill, a layer
// over a part, a change of levels. It owns its buffers and is not for concurrent use. The
// zero value is ready.
//
// # Method
//
// Both pictures are reduced to cells (see cellPlane). A jump is believed where
//
//   - a motion (shift, zoom and turn) explains most of the change, found by least squares on
//     the gradients, coarse to fine, from standstill and from the best shift of whole cells,
//     also of the picture mirrored; or
//   - hardly an edge is left where it was, in no part of the picture, though both pictures
//     have edges, and nothing was just filled or cleared.
//
// Its limits: it can't see what leaves no trace, as a pan along stripes, or of thin lines by
// less than half a cell; a region of which a third of the edges are a program's fixed panels
// counts as painted in part. The other way round, a sole object moved on a plain ground
// counts as a pan, and a layer that hides all edges there were as another picture.
type Jump struct {
	width, height int // of the picture
	before, now   cellPyramid
	mirror        cellPlane // of before, at the coarse level
	scratch       []float32
}

// Moved reports whether the picture of r has jumped since the reading given before; motions
// too small to tell add up until they tell. The first reading has nothing to jump from; a
// reading of another size has jumped. A picture of more than analysis.MostGrey pixels never
// has.
func (j *Jump) Moved(r *analysis.Reading) bool {
	if r == nil || len(r.Grey) == 0 {
		return false
	}
	if r.Width != j.width || r.Height != j.height {
		first := j.width == 0
		j.resize(r.Width, r.Height)
		j.before.read(r, j.scratch)
		return !first
	}
	if j.before.levels == 0 {
		return false
	}
	j.now.read(r, j.scratch)
	moved, keep := j.judge()
	if !keep {
		j.before, j.now = j.now, j.before
	}
	return moved
}

// Forget makes the next reading count as the first one. Use it when the region that is
// watched has been changed, rather than what it shows.
func (j *Jump) Forget() { j.width, j.height = 0, 0 }

func (j *Jump) resize(width, height int) {
	j.width, j.height = width, height
	j.before.resize(width, height)
	j.now.resize(width, height)
	if j.before.levels > 0 {
		j.scratch = make([]float32, len(j.now.plane[0].v)+width)
		j.mirror = newCellPlane(j.now.coarse().across, j.now.coarse().down)
	}
}

// judge compares both pictures; keep says that the one before stays the one to compare with.
func (j *Jump) judge() (moved, keep bool) {
	before, now := &j.before.plane[0], &j.now.plane[0]
	box, share := changedBox(before, now)
	if share <= jumpFew {
		return false, true
	}
	e := compareEdges(before, now, box)
	if e.before < jumpEdges || e.now < jumpEdges || e.outside > jumpElse || e.kept > jumpStill {
		return false, false
	}
	curve := curveLeft(before, now, box)
	standing := e.held() > jumpStand
	if standing {
		if f := j.fit(motion{}, j.now.levels-1, box); f.explains(curve) {
			small := f.by*float64(j.now.size) < jumpLeast
			return !small, small
		}
		if e.held() > jumpHeld {
			return false, false
		}
	}
	middle := max(j.now.levels-2, 0)
	moved = j.fit(bestShift(&j.before, &j.now, middle), middle, box).explains(curve) || j.mirrored(curve) ||
		!standing && j.fit(motion{}, j.now.levels-1, box).explains(curve) ||
		e.other() && !filled(before, now, box) && !filled(now, before, box)
	return moved, false
}

// fit aligns the pictures, coarse to fine, from a motion in cells of the level given. It
// stops early where nothing good can come of it.
func (j *Jump) fit(m motion, level int, box image.Rectangle) (f fitted) {
	for ; level >= 0; level-- {
		before, now, part := &j.before.plane[level], &j.now.plane[level], coarser(box, level)
		m = align(before, now, part, m)
		if level < 2 {
			f = judgeFit(before, before, now, part, m)
			if f.left > jumpLost {
				return f
			}
		}
		m.x, m.y = 2*m.x, 2*m.y
	}
	return f
}

// mirrored reports whether the picture is mirrored left to right, top to bottom, or both
// (turned upside down), looking at its coarse level only.
func (j *Jump) mirrored(curve float64) bool {
	before, now := j.before.coarse(), j.now.coarse()
	for side := 1; side < 4; side++ {
		j.mirror.mirrorOf(before, side&1 != 0, side&2 != 0)
		m := align(&j.mirror, now, now.bounds(), shiftBetween(&j.mirror, now, before).motion())
		if f := judgeFit(&j.mirror, before, now, now.bounds(), m); f.explains(curve) {
			return true
		}
	}
	return false
}
