package analysis

import (
	"image"

	"app.tonedesk/analysis/colour"
)

// rereadMost is of which part of a picture no more may have changed for that alone to be read
// again: what was counted of it before has to be counted once more (our choice).
const rereadMost = 0.5

// kept is what has to be as it was for the plane and the counts of the frame before to hold
// where nothing has changed.
type kept struct {
	whole  bool // they are those of a frame, read to its end
	clear  bool // it had transparent pixels: which of them were counted the plane doesn't tell
	deep   bool // of 16 bits a channel: the plane doesn't tell enough of them
	size   image.Point
	layout Layout
	space  *colour.Space
	left   WasLeft
	ground bool // was looked for
	of     hue
	frame  image.Rectangle

	box  image.Rectangle // that is read again
	gone []lanes         // what was counted there, one a worker
}

// keep notes what a frame was read by.
func (k *kept) keep(r *Reader, p *Pixels, out *Mask) {
	k.whole, k.size, k.layout, k.space, k.deep = true, image.Pt(p.Width, p.Height), p.Layout, p.Space, p.Rest != nil
	k.ground, k.of, k.frame = r.ground.is, r.ground.of, r.ground.frame
	k.left.Keep(out)
}

// holds reports whether a frame is read by the same.
func (k *kept) holds(r *Reader, p *Pixels, out *Mask) bool {
	sameGround := k.ground == r.ground.is && (!k.ground || k.of == r.ground.of && k.frame == r.ground.frame)
	return k.whole && !k.clear && !k.deep && p.Rest == nil && sameGround && k.size == image.Pt(p.Width, p.Height) && k.layout == p.Layout && k.space == p.Space && k.left.Same(out)
}

// toRead returns what of a frame is to be read, where it differs from the one before in changed;
// whole says that it is all of it.
func (r *Reader) toRead(p *Pixels, out *Mask, changed image.Rectangle) (box image.Rectangle, whole bool) {
	changed = changed.Intersect(p.Bounds())
	part := float64(changed.Dx()) * float64(changed.Dy())
	if r.grey == nil || !r.kept.holds(r, p, out) || part > rereadMost*float64(p.Width)*float64(p.Height) {
		return p.Bounds(), true
	}
	if r.ground.is && !changed.Empty() { // cells of the ground are closed and opened as a whole
		const cells = 2 * cellSide
		changed.Min.X, changed.Min.Y = changed.Min.X/cells*cells, changed.Min.Y/cells*cells
		changed.Max.X = min((changed.Max.X+cells-1)/cells*cells, p.Width)
		changed.Max.Y = min((changed.Max.Y+cells-1)/cells*cells, p.Height)
	}
	return changed, false
}

// passChanged does what pass does where only box has changed.
func (r *Reader) passChanged(p Pixels, box image.Rectangle) {
	if r.ground.is {
		r.ground.reopen()
	}
	if box.Empty() {
		return
	}
	clear(r.tallies)
	clear(r.kept.gone)
	r.pixels, r.kept.box = p, box
	r.workers.DoOther(r.reread, (box.Dy()+rowsPerPiece-1)/rowsPerPiece)
	r.pixels = Pixels{}
	for i := range r.kept.gone {
		for _, lane := range r.kept.gone[i] {
			for bin, n := range lane {
				r.counts[bin] -= int(n)
			}
		}
	}
	r.addTallies()
}

// rereadRows reads some rows of the box again. What it counted before stands in the plane.
func (r *Reader) rereadRows(worker, piece int) {
	p, box := &r.pixels, r.kept.box
	first := box.Min.Y + piece*rowsPerPiece
	for y := first; y < min(first+rowsPerPiece, box.Max.Y); y++ {
		dst := r.reading.GreyRow(y)
		for x := box.Min.X; x < box.Max.X; {
			end, counted := r.left.NextSpan(y, x, p.Width)
			end = min(end, box.Max.X)
			if counted {
				r.kept.gone[worker].add(dst[x:end])
			}
			r.binPart(worker, counted, dst[x:end], x, y)
			x = end
		}
		if r.ground.is {
			r.ground.row(p, y, dst, box.Min.X, box.Max.X)
		}
	}
}
