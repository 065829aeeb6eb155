package gui

import (
	"context"
	"image"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/native"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
)

// houseEvery is how often the window looks where it is itself, and how old things are.
const houseEvery = 500 * time.Millisecond

// keepHouse does what has to be done now and then, until ctx ends. It asks the system on
// its own goroutine; what is the same as before costs the window nothing.
func (d *Desk) keepHouse(ctx context.Context) {
	tick := time.NewTicker(houseEvery)
	defer tick.Stop()
	var handle uintptr
	var now position
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		if handle == 0 {
			d.onWindow(func() { handle = d.native.handle() })
		}
		now = position{}
		now.frame, _ = native.FrameRect(handle) // no answer: then it can't be said to cover anything
		now.hidden, _ = native.Hidden(handle)
		now.inside, _ = native.ClientRect(handle)
		d.onWindow(func() { d.moved(now) })
	}
}

// position is where our own window is.
type position struct {
	frame  image.Rectangle // with its frame, desktop pixels; empty if unknown
	inside image.Rectangle // without its frame
	hidden bool            // minimised
}

// moved takes note of our own window's place: it may cover what is watched.
func (d *Desk) moved(now position) {
	covered := now.frame
	if d.setup.Source.Kind != setup.SourceRegion || now.hidden {
		covered = image.Rectangle{}
	}
	if covered != d.covered {
		d.covered = covered
		d.renew()
		d.showCovered()
		d.trace.state(d)
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
		d.parts.strip.Clear(widgets.MessageCovered)
		return
	}
	d.parts.strip.Say(widgets.MessageCovered, "This window covers a part of the picture; that part is not counted. Move it aside.")
}

// keepAbove keeps the window above others, or no longer.
func (d *Desk) keepAbove() {
	if !d.settings.KeepAbove {
		return
	}
	if err := native.KeepAbove(d.native.handle(), true); err != nil {
		fyne.LogError("keeping the window above others", err)
	}
}

// toggleAbove switches keeping above others.
func (d *Desk) toggleAbove() {
	on := !d.settings.KeepAbove
	if err := native.KeepAbove(d.native.handle(), on); err != nil {
		d.parts.strip.Say(widgets.MessageNote, "This desktop does not let a window stay above others. Its own window menu may offer it.")
		fyne.LogError("keeping the window above others", err)
		return
	}
	d.settings.KeepAbove = on
	d.keep()
	if on {
		d.parts.strip.Say(widgets.MessageNote, "The window stays above others.")
	} else {
		d.parts.strip.Say(widgets.MessageNote, "The window no longer stays above others.")
	}
}
