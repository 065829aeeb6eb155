package live

import (
	"time"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/flashes"
)

// flicker finds out whether what is watched flashes by itself, in whatever view it is shown.
type flicker struct {
	meter   flashes.Meter
	levels  flashes.Levels
	flashes bool
	shown   time.Time // when another picture was shown last
	back    time.Time // when the last one comes back
}

// look takes a picture.
func (f *flicker) look(t *task, now time.Time) {
	f.levels.Measure(colour.RGB{}, flashes.Whole(t.pixels))
	f.meter.Show(&f.levels, now)
}

// heldBack reports whether a picture is not to be shown now, since what is watched flashes. It
// comes back when it may be, and when the flashing may have ended.
func (w *Worker) heldBack(t *task) bool {
	f, now := &w.flicker, w.now()
	if t.Setup.Source.Feed() != w.last.Setup.Source.Feed() {
		f.meter = flashes.Meter{} // another source is no flash of this one
	}
	if !t.same.picture {
		f.look(t, now)
	}
	f.flashes = f.meter.Flashes(f.levels.Covered, now)
	wait := flashes.Every - now.Sub(f.shown)
	held := f.flashes && !t.same.picture && wait > 0
	if !held {
		wait = flashes.Every
	}
	if !held && !t.same.picture {
		f.shown = now
	}
	if f.flashes && !now.Before(f.back) {
		f.back = now.Add(wait)
		w.owner.Again(wait)
	}
	return held
}
