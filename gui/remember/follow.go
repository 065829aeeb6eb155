package remember

import (
	"image"

	"app.tonedesk/analysis/movement"
	"app.tonedesk/gui/setup"
)

// Follow has what lies on the picture, whose top left is origin, go with it when it is panned, zoomed,
// turned or mirrored, and reports whether something did: what was read in this frame lies elsewhere
// now, and is read anew. Where it can't be known how the picture moved, the spots are said to be lost;
// the same where nothing of it is left, until it is back. None of it is a step of undo, since the
// painter didn't do it, and what undo goes back to goes with the picture too.
func (m *Memory) Follow(move movement.Move, origin image.Point) (moved bool) {
	if move.Back {
		m.replace(m.Steps.Now().Back(m.gone))
	}
	switch {
	case move.Kind == movement.Moved:
		m.Along(func(of setup.Setup) setup.Setup { return of.MovedBy(move.By, origin) })
		return true
	case move.Gone:
		m.gone = m.Steps.Now()
		m.replace(m.gone.AllMoved(true))
	case move.Kind == movement.Unknown:
		m.replace(m.Steps.Now().AllMoved(true))
	}
	return false
}

// replace makes next the setup where spots may lie on the picture.
func (m *Memory) replace(next setup.Setup) {
	if len(next.Places)+len(next.Families)+len(next.Focus) > 0 {
		m.Put(next)
		m.Note()
	}
}
