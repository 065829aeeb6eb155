package gui

import "app.tonedesk/gui/setup"

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
