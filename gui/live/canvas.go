package live

import (
	"image"
	"time"

	"app.tonedesk/analysis/workspace"
	"app.tonedesk/gui/setup"
)

// canvasSettles is how long a canvas must have stayed for it to be told: while the painter pans or
// zooms it is elsewhere in every picture (our choice).
const canvasSettles = 700 * time.Millisecond

// Canvas is the canvas that was found in a workspace around it, in the source's pixels; empty for
// none.
type Canvas struct {
	image.Rectangle
	Certain bool
}

// canvasFinder finds the canvas, and tells of one that has settled.
type canvasFinder struct {
	seen, settled Canvas
	since         time.Time // when it was first seen as it is
	back          time.Time // when the last frame comes back for it
}

// look finds the canvas in a task's picture, and returns the one that has settled.
func (f *canvasFinder) look(w *Worker, t *task) Canvas {
	now := w.now()
	if t.Setup.Source != w.last.Setup.Source {
		*f = canvasFinder{since: now}
	}
	if !t.same.picture {
		if found := canvasOf(t); found != f.seen {
			f.seen, f.since = found, now
		}
	}
	if f.seen == f.settled {
		return f.settled
	}
	if wait := w.CanvasSettles - now.Sub(f.since); wait <= 0 {
		f.settled = f.seen
	} else if !now.Before(f.back) {
		f.back = now.Add(wait)
		w.owner.Again(wait)
	}
	return f.settled
}

// canvasOf finds the canvas in what may show one.
func canvasOf(t *task) Canvas {
	if kind := t.Setup.Source.Kind; !kind.OnScreen() && kind != setup.SourcePicture {
		return Canvas{}
	}
	found := workspace.Find(t.pixels)
	if found.Certainty == workspace.None {
		return Canvas{}
	}
	return Canvas{found.Canvas.Add(t.bounds.Min), found.Certainty == workspace.Certain}
}
