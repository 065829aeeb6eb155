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
	if d.memory.Seen(s.Bounds) {
		return true
	}
	switch s.Move.Kind {
	case movement.Moved:
		along(d, func(of setup.Setup) setup.Setup { return of.MovedBy(s.Move.By, s.Bounds.Min) })
		return true
	case movement.Unknown:
		if len(d.setup.Places)+len(d.setup.Families)+len(d.setup.Focus) > 0 {
			d.setup = d.setup.AllMoved(true)
			d.publish()
			d.showMarks()
			d.memory.Note()
		}
	}
	return false
}

// along changes the setup, and those of the same picture that undo goes back to.
func along(d *Desk, change func(setup.Setup) setup.Setup) {
	feed := d.setup.Source.Feed()
	same := func(of setup.Setup) setup.Setup {
		if of.Source.Feed() != feed {
			return of
		}
		return change(of)
	}
	d.setup = same(d.setup)
	d.history.Each(same)
	d.memory.Note()
	d.showMarks()
	d.refresh()
}
