package widgets

import "fyne.io/fyne/v2/driver/desktop"

// explained is embedded in a button: it knows whether the pointer or the focus is on it, and lets its
// tip come meanwhile.
type explained struct {
	focus
	pointed bool
	tips    *Tips
	tip     string     // what tips say of it
	came    func(bool) // the pointer or the focus came, or went; may be nil
}

// MouseIn lets the tip come.
func (e *explained) MouseIn(*desktop.MouseEvent) { e.point(true) }

// MouseMoved has nothing to do.
func (e *explained) MouseMoved(*desktop.MouseEvent) {}

// MouseOut lets the tip go.
func (e *explained) MouseOut() { e.point(false) }

// FocusGained shows the outline, and soon the tip.
func (e *explained) FocusGained() {
	e.focus.FocusGained()
	e.point(true)
}

// FocusLost hides both.
func (e *explained) FocusLost() {
	e.focus.FocusLost()
	e.point(false)
}

func (e *explained) point(on bool) {
	e.pointed = on
	if on {
		e.tips.enter(e.tip, e.owner)
	} else {
		e.tips.Leave()
	}
	e.changed()
	if e.came != nil {
		e.came(on)
	}
}
