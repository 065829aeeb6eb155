package gui

import (
	"slices"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/setup"
)

// change replaces the setup; kind joins changes of one drag to one step of undo.
func (d *Desk) change(next setup.Setup, kind string) {
	d.setup.Groups = d.settings.Groups
	d.history.Step(d.setup, kind)
	if !chosen(d) && next.Source != d.setup.Source { // undo never takes the first picture away
		d.history.Forget(func(s setup.Setup) bool { return s.Source == d.setup.Source })
	}
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
		d.Mirror.ForgetView()
		d.memory.Switched()
		d.stills.sourceLeft(was)
		d.marker.leave()
		d.comparison.Forget()
		d.watcher.Freeze(false)
		d.watcher.Reopen(d.ways.Opener(next.Source))
		d.Messages.Clear(host.MessageTrouble)
	}
	if next.Source != before {
		d.last.shape.Renew(d.last.bounds)
		d.showState()
		d.families.Forget()
		d.remember()
	}
	d.families.Renew()
	d.keepSetup()
	d.refresh()
	d.standing.show(d)
}

// keepSetup keeps for the next start how colours are proposed, the target, and what lies on the
// picture.
func (d *Desk) keepSetup() {
	s := &d.settings
	path, still := d.setup.Target.Origin()
	if d.target.Restoring {
		path, still = s.Target, s.TargetStill // they are being read
	}
	if s.Shade != d.setup.Shade || s.Target != path || s.TargetStill != still {
		s.Shade, s.Target, s.TargetStill = d.setup.Shade, path, still
		d.keep()
	}
	d.memory.Note()
}

// Undo and Redo walk through the setups.
func (d *Desk) Undo() {
	if d.stills.undoOffered() || d.marker.undo() || d.marker.onPage() && d.stills.undoDelete() {
		return
	}
	d.walk(d.history.Undo, language.Say("Nothing to undo"))
}

// Redo does again what was undone.
func (d *Desk) Redo() {
	if d.marker.redo() {
		return
	}
	d.walk(d.history.Redo, language.Say("Nothing to redo"))
}

func (d *Desk) walk(step func(setup.Setup) (setup.Setup, bool), nothing string) {
	d.setup.Groups = d.settings.Groups
	if next, ok := step(d.setup); ok {
		d.Messages.Clear(host.MessageNote) // it may say what is not so any more
		groups := !slices.Equal(next.Borders, d.setup.Borders)
		d.apply(next)
		if groups && d.settings.Groups != next.Groups {
			d.settings.Groups = next.Groups
			d.settled()
		}
		return
	}
	d.Messages.Note(nothing)
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
