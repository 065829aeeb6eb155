package gui

import (
	"image"
	"time"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
)

// joinStills makes the owners of what is marked and of what was kept.
func (d *Desk) joinStills() {
	d.marker = newMarker(&d.Host, &d.settings)
	d.stills = &keptStills{Host: &d.Host, settings: &d.settings, takeBack: d.marker.saver.TakeBack, flush: d.marker.saver.Flush}
	d.marker.showPair, d.marker.needStill = d.showSentence, d.stills.needed
	d.stills.exporter = &exporter{&d.Host, d.marker, &d.settings, d.saves.ask, d.saves.over, d.clipboard.CopyImage}
	d.stills.keptAsks = keptAsks{
		now:    func() setup.Setup { return d.setup },
		seen:   func() (image.Rectangle, time.Time) { return d.last.bounds, d.last.at },
		judged: func() []setup.Judged { return d.families.Judged() },
		copy:   withoutChip(d), watch: d.watch, opened: d.stillOpened,
		goTo: func(next setup.Setup) {
			d.history.Settle()
			d.change(next, "")
		},
		forget: func(id string) {
			d.history.Forget(func(s setup.Setup) bool { return s.Source.Kind == setup.SourceStill && s.Source.Path == id })
		},
		reopen: func(id string) {
			if s := d.marker.Still(); s != nil && s.ID == id && s.Barred != nil {
				d.marker.leave()
				d.watcher.Reopen(d.ways.Opener(d.setup.Source))
			}
		},
	}
}

// withoutChip copies the picture once the chip at the pointer is off it: a still is of the painting.
func withoutChip(d *Desk) func(func(*live.Copy)) {
	return func(do func(*live.Copy)) {
		d.pointer.Aside(func(done func()) {
			d.copyPicture(func(c *live.Copy) {
				done()
				do(c)
			})
		})
	}
}

// stillOpened takes a still that was opened, if it is still wanted and not open already.
func (d *Desk) stillOpened(s *stills.Still) {
	if d.setup.Source != asSource(s.ID) || d.marker.Still() != nil {
		d.marker.saver.Leave(s)
		return
	}
	d.setup.Out, d.setup.Focus = s.Meta.LeftOut.Parts(), s.Meta.Marked()
	d.families.Focus.Adopt()
	d.setup.Judged = d.families.Adopt(s.Meta.Judged())
	d.marker.open(s)
	d.publish()
	d.standing.show(d)
	if !d.comparison.On() {
		d.Notify(host.NotesAsked)
	}
	d.marker.showPen()
}
