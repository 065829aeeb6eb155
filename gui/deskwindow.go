package gui

import (
	"image"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// moved takes note of our own window's place: it may cover what is watched.
func (d *Desk) moved(now windowPlace) {
	covered := now.frame
	if d.setup.Source.Kind != setup.SourceRegion || now.hidden {
		covered = image.Rectangle{}
	}
	if covered != d.covered {
		d.covered = covered
		d.renew()
		d.showCovered()
		d.changed()
	}
	if now.hidden != d.hidden {
		d.hidden = now.hidden
		d.watcher.Freeze(d.frozen || d.hidden)
	}
	if !now.hidden && !now.inside.Empty() && now.inside != d.settings.Place.Rectangle() {
		d.settings.Place = settings.RectOf(now.inside)
		d.keep()
	}
	d.showState()
}

// showCovered says that our own window covers a part of what is watched.
func (d *Desk) showCovered() {
	part := d.covered.Intersect(d.bounds)
	if part.Empty() || d.setup.Source.Kind != setup.SourceRegion {
		d.messages.clear(messageCovered)
		return
	}
	d.messages.say(messageCovered, "This window covers a part of the picture; that part is not counted. Move it aside.")
}

// toggleAbove switches keeping above others.
func (d *Desk) toggleAbove() {
	if on := !d.settings.KeepAbove; d.own.keepAbove(on) {
		d.settings.KeepAbove = on
		d.keep()
	}
}

// PickRegion lets the painter choose a region on a frozen picture of the desktop.
func (d *Desk) PickRegion() {
	d.keep()
	d.picker.pick()
}
