package movement

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/pool"
)

// Kind says what became of where a picture lies.
type Kind uint8

const (
	Still   Kind = iota // it lies where it lay, whatever was painted
	Moved               // it lies elsewhere, and it is known how
	Unknown             // it lies elsewhere, or is another picture; how is not known
)

// Move is what became of where a picture lies, from one reading to the next.
type Move struct {
	Kind Kind
	By   Transform // where the picture was moved; leaves all where it is for other kinds
	Kept float64   // share of what edges there were, of those that should be there, that are: 0 to 1
	Gone bool      // nothing of the picture is left, from now on; the next one that is seen is compared with it
	Back bool      // it was gone, and lies again as Kind says; never with Unknown
}

// Finder tells how the whole picture was moved from one reading to the next, because the
// painter panned, zoomed, turned or mirrored the canvas, and when it is not known how, so that
// places marked in it are no longer on what they were put on. Painting is no movement: a dab,
// a fill, a layer over a part, a change of levels. It owns its memory and is not for concurrent
// use. The zero value is ready.
type Finder struct {
	width, height int // of the picture
	gone          bool
	before, now   *cells
	kept          bool // what was seen last is now; else it is before
	missed        bool // what was seen last is in neither
	two           [2]cells
	scratch       []float32
	corners       cornerFinder
	matcher
	others     []match // of the other hand
	guesser    guesser
	guesses    [guessMost]guess
	aligner    aligner
	candidates []candidate
}

// Next returns what became of where the picture lies since the reading given before; motions
// too small to tell add up until they tell. The first reading has nothing to be moved from; of
// a reading of another size it isn't known how it was. A picture of more than
// analysis.MostGrey pixels, or one too small to see anything in, is always still.
func (f *Finder) Next(r *analysis.Reading) Move {
	if r == nil {
		return Move{}
	}
	return f.NextChanged(r, image.Rect(0, 0, r.Width, r.Height))
}

// NextChanged is Next for a reading that differs from the one given before in a part alone, in pixels;
// only that is looked at. It says the same as Next.
func (f *Finder) NextChanged(r *analysis.Reading, changed image.Rectangle) Move {
	if r == nil || len(r.Grey) == 0 {
		f.missed = true
		return Move{}
	}
	if r.Width != f.width || r.Height != f.height {
		first := f.width == 0
		f.resize(r.Width, r.Height)
		if f.before.levels > 0 {
			f.before.take(r, image.Rect(0, 0, r.Width, r.Height))
		}
		if first {
			return Move{}
		}
		return Move{Kind: Unknown}
	}
	if f.missed {
		changed, f.missed = image.Rect(0, 0, r.Width, r.Height), false
	}
	if f.before.levels == 0 || changed.Empty() { // the same picture: whatever was said of it, it lies still since
		return Move{}
	}
	if !f.kept {
		copy(f.now.read.v, f.before.read.v)
	}
	f.now.take(r, changed)
	m, keep := f.judge()
	f.kept = keep
	if !keep {
		f.before, f.now = f.now, f.before
	}
	return m
}

// going says that the picture is gone, and keeps it to be compared with the next one.
func (f *Finder) going() (m Move, keep bool) {
	m.Gone, f.gone = !f.gone, true
	return m, true
}

// back says that the picture lies as m says, gone or not a moment ago.
func (f *Finder) back(m Move) Move {
	m.Back, f.gone = f.gone && m.Kind != Unknown, false
	return m
}

// Forget makes the next reading count as the first one. Use it when the region that is
// watched has been changed, rather than what it shows.
func (f *Finder) Forget() { f.width, f.height, f.gone = 0, 0, false }

func (f *Finder) resize(width, height int) {
	f.width, f.height, f.gone, f.kept, f.missed = width, height, false, false, false
	f.before, f.now = &f.two[0], &f.two[1]
	f.before.resize(width, height)
	f.now.resize(width, height)
	f.scratch = pool.Resized(f.scratch, len(f.now.read.v))
	f.aligner.halfX, f.aligner.halfY = float64(f.now.read.across)/2, float64(f.now.read.down)/2
}

// judge compares both pictures; keep says that the one before stays the one to compare with.
func (f *Finder) judge() (m Move, keep bool) {
	box, share := changedBox(&f.before.read, &f.now.read)
	if share <= changedFew {
		return f.back(m), true
	}
	f.before.prepare(f.scratch)
	f.now.prepare(f.scratch)
	before, now := &f.before.plane[0], &f.now.plane[0]
	e := compareEdges(before, now, box)
	if e.outside > edgesElse || e.kept > edgesStay {
		return f.back(m), false // something local, or painted over
	}
	if e.bare() {
		return f.going()
	}
	if min(e.before, e.now) >= edgesLeast {
		best := f.search(&e)
		if best.small {
			return f.back(m), true
		}
		switch {
		case best.sure() && !f.symmetric():
			return f.back(Move{Kind: Moved, By: f.inPixels(best.by), Kept: best.kept}), false
		case best.sure(), best.likely():
			return f.back(Move{Kind: Unknown}), false
		}
	}
	if f.another(&e, box, share) {
		return f.back(Move{Kind: Unknown}), false
	}
	if f.gone && e.held() <= edgesHeld {
		return f.going() // something else is seen there, but not yet enough of it
	}
	return f.back(m), false
}

// another reports whether the picture is another, or so much of it has changed that it may be.
func (f *Finder) another(e *edgeCount, box image.Rectangle, share float64) bool {
	before, now := &f.before.plane[0], &f.now.plane[0]
	if e.held() > edgesHeld || filled(before, now, box) || filled(now, before, box) {
		return false
	}
	if min(e.before, e.now) >= edgesLeast {
		return e.other()
	}
	return share > changedMost && curveLeft(before, now, box) > curveMost
}

// inPixels returns a transform of cells from the middles as one of pixels from the corner.
func (f *Finder) inPixels(t Transform) Transform {
	x, y := f.now.middle()
	return Shift(-x, -y).Compose(t.scaled(float64(f.now.size))).Compose(Shift(x, y))
}
