package gui

import (
	"image"

	"app.tonedesk/gui/everywhere"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/tray"
)

// moved takes note of our own window's place: it may cover what is watched.
func (d *Desk) moved(now host.WindowPlace) {
	covered := now.Frame
	if d.setup.Source.Kind != setup.SourceRegion || now.Hidden || now.Out {
		covered = image.Rectangle{}
	}
	if covered != d.covered {
		d.covered = covered
		d.refresh()
		d.standing.show(d)
		d.Changed()
	}
	if now.Hidden != d.hidden {
		d.hidden = now.Hidden
		d.watcher.Freeze(d.frozen || d.hidden)
	}
	if !now.Hidden && !now.Arriving && !now.Inside.Empty() && !d.settings.HasPlace(now.Screens, now.Inside) {
		d.keep() // its size
		d.settings = d.settings.WithPlace(now.Screens, now.Inside)
		d.keep()
	}
	d.pointer.Own(now.Frame)
	d.ways.OwnLies(now.Frame)
	d.showState()
}

// toggleAbove switches keeping above others.
func (d *Desk) toggleAbove() {
	if on := !d.settings.KeepAbove; d.own.KeepAbove(on) {
		d.settings.KeepAbove = on
		d.keep()
	}
	d.parts.start.onTop.Set(d.settings.KeepAbove)
	if d.parts.prefs != nil {
		d.parts.prefs.Sync()
	}
}

// leaveOut switches whether pictures of the screen, what is watched among them, hold this window.
func leaveOut(d *Desk, on bool) {
	if d.own.LeaveOut(on) {
		d.settings.LeaveOut = on
		d.keep()
	}
	d.parts.prefs.Sync()
}

// renewSheet has the open panel show what the settings are.
func renewSheet(d *Desk) {
	if d.parts.sheet != nil {
		d.parts.sheet.Renew()
	}
}

// joinEverywhere makes the owner of the keys that work in every program.
func joinEverywhere(d *Desk) *everywhere.Keys {
	acts := everywhere.Acts{
		Show: d.Show, Handle: d.own.Handle, Kept: d.keep, Renewed: func() { renewSheet(d) },
		Shows: func(pixel image.Point) (image.Point, bool) { return d.Mirror.SourceAt(pixel) }, Under: func() (image.Point, bool) { return d.Mirror.Under() }, Select: func(spot int) { d.selected = spot },
		Use: d.ways.Use, SpaceAt: d.ways.Colours.At, Follower: d.ways.Follower,
	}
	acts.Do[everywhere.Freeze], acts.Do[everywhere.Keep] = d.Freeze, func() { d.stills.keep(false) }
	acts.Do[everywhere.View] = func() { d.nextView(1) }
	return everywhere.New(&d.Host, &d.settings, acts)
}

// beginTray puts the entry into the desktop's tray, if that is wished.
func beginTray(d *Desk) {
	if d.settings.Tray {
		tray.Begin(&d.Host, tray.Acts{Show: d.parts.keys.ShowOrHide, Freeze: d.Freeze, Keep: func() { d.stills.keep(false) }, Quit: d.quit})
	}
}

// toggleTray has the next start do so, or no longer.
func toggleTray(d *Desk, on bool) {
	d.settings.Tray = on
	d.keep()
	tray.Tell(&d.Host, on)
}

// joinLeaver makes the owner of the way out.
func (d *Desk) joinLeaver() {
	d.leaver = host.Leaver{
		Host: &d.Host, Lost: d.marker.lost, Elsewhere: d.marker.keepElsewhere,
		Save: func() error {
			d.stills.asked.Wait()
			d.Writing.Wait()
			return d.marker.saver.SaveAll()
		},
		End: func() {
			d.Close()
			if d.options.Quit != nil {
				d.options.Quit()
			}
		},
	}
}

// quit ends the program, unless something can't be saved and the painter goes on.
func (d *Desk) quit() {
	d.marker.Up()               // what is just being drawn counts
	d.Window.Canvas().Unfocus() // and a name that is just being typed: it is taken when its line is left
	d.leaver.Leave()
}

// PickRegion lets the painter choose a region on a frozen picture of the desktop.
func (d *Desk) PickRegion() {
	d.keep()
	d.ways.PickRegion()
}
