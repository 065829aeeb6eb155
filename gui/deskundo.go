package gui

import (
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
)

// change replaces the setup; kind joins changes of one drag to one step of undo.
func (d *Desk) change(next setup.Setup, kind string) {
	d.history.Step(d.setup, kind)
	d.apply(next)
}

// apply makes next the setup, without a step of undo.
func (d *Desk) apply(next setup.Setup) {
	was, before := d.setup, d.setup.Source
	d.setup = next
	if d.selected >= len(next.Places) {
		d.selected = -1
	}
	d.showMarks()
	if next.Source.Feed() != before.Feed() {
		d.frozen = false
		d.parts.mirror.ForgetView()
		d.leaveStill(was)
		d.comparison.found = nil
		d.watcher.Freeze(false)
		d.watcher.Reopen(d.opener(next.Source))
		d.parts.strip.Clear(widgets.MessageTrouble)
	}
	if next.Source != before {
		d.found = live.Found{}
		d.showOutline()
		d.remember()
	}
	d.keepTarget()
	d.keepShade()
	d.renew()
	d.showStrip()
}

// Undo and Redo walk through the setups.
func (d *Desk) Undo() {
	if d.undoNotes() || d.onStills() && d.undoDelete() {
		return
	}
	d.walk(d.history.Undo, "There is nothing to undo.")
}

// Redo does again what was undone.
func (d *Desk) Redo() {
	if d.redoNotes() {
		return
	}
	d.walk(d.history.Redo, "There is nothing to do again.")
}

func (d *Desk) walk(step func(setup.Setup) (setup.Setup, bool), nothing string) {
	if next, ok := step(d.setup); ok {
		d.apply(next)
		return
	}
	d.parts.strip.Say(widgets.MessageNote, nothing)
}
