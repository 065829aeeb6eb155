package gui

import (
	"app.tonedesk/analysis/movement"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
)

// follow has what lies on the picture go with it when it is panned, zoomed, turned or mirrored, and
// reports whether something did: what was read in this frame lies elsewhere now, and is read anew.
// Where it can't be known how the picture moved, the spots are said to be lost. None of it is a step
// of undo, since the painter didn't do it, and what undo goes back to goes with the picture too.
func follow(d *Desk, s *live.Shown) bool {
	switch s.Move.Kind {
	case movement.Moved:
		feed := d.setup.Source.Feed()
		along := func(of setup.Setup) setup.Setup {
			if of.Source.Feed() != feed {
				return of
			}
			return of.MovedBy(s.Move.By, s.Bounds.Min)
		}
		d.setup = along(d.setup)
		d.history.Each(along)
		d.showMarks()
		d.refresh()
		return true
	case movement.Unknown:
		if len(d.setup.Places)+len(d.setup.Families) > 0 {
			d.setup = d.setup.AllMoved(true)
			d.publish()
			d.showMarks()
		}
	}
	return false
}
