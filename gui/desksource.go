package gui

import (
	"image"

	"fyne.io/fyne/v2"

	"app.tonedesk/capture"
	"app.tonedesk/gui/displays"
	"app.tonedesk/gui/remember"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/watching"
	"app.tonedesk/gui/wording"
)

// watch makes from the source, with what lies on its picture.
func (d *Desk) watch(from setup.Source) {
	next, target := d.memory.Watching(from)
	d.history.Settle()
	d.change(next, "")
	target()
}

// joinWays makes the ways to what can be watched.
func joinWays(d *Desk) {
	d.ways = watching.New(&d.Host, d.options.Screen, watching.Acts{
		Now: func() setup.Source { return d.setup.Source }, Region: d.watchedRegion, Handle: d.own.Handle,
		Below: func() fyne.Position { return d.parts.bar.Source.Below() }, Show: d.Show, Watch: d.watch,
		Renamed: func(was setup.Source, title string) { windowRenamed(d, was, title) },
		Opened:  func(from setup.Source) { d.memory.Opened(from) },
		Still:   func(id string) (capture.Stream, error) { return d.stills.stream(id) },
	})
	joinColours(d)
}

// joinColours has what is watched on the screen read in the colours of its display.
func joinColours(d *Desk) {
	d.ways.Colours.Choose(d.settings)
	d.ways.Colours.Changed = func(now displays.State, anew bool) {
		d.Soon(func() {
			if anew {
				d.watcher.Reopen(d.ways.Opener(d.setup.Source))
			}
			if now.Err != nil {
				d.Messages.Fail(wording.SayDisplayRefused(now.Err))
				fyne.LogError("reading the display's colours", now.Err)
			}
			renewSheet(d)
		})
	}
}

// targetStill makes a still the target.
func (d *Desk) targetStill(id string) { d.target.OpenStill(id, d.target.Set) }

// OpenPicture shows a picture file instead of the screen.
func (d *Desk) OpenPicture(path string) { d.watch(setup.Source{Kind: setup.SourcePicture, Path: path}) }

// Dropped opens the first file that was dropped on the window.
func (d *Desk) Dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) > 0 {
		d.OpenPicture(files[0].Path())
	}
}

// remember keeps what is watched for the next start: of a still, what was watched before it.
func (d *Desk) remember() {
	from := d.setup.Source
	if from.Kind == setup.SourceStill {
		from = d.stills.before.Source
	}
	d.settings = d.settings.Remembering(from)
	noteWatched(d)
	d.keep()
}

// noteWatched puts what is watched first among what is offered again.
func noteWatched(d *Desk) {
	if w := settings.WatchedOf(d.setup.Source); w != (settings.Watched{}) {
		d.settings = d.settings.Watching(w)
	}
}

// firstSource is what is watched at the start: the file that was named, else what was
// watched last, else nothing: the painter is asked.
func firstSource(picture string, s settings.Settings) setup.Source {
	if picture != "" {
		return setup.Source{Kind: setup.SourcePicture, Path: picture}
	}
	return s.First()
}

// filesRead are the files that the window reads: the picture or the still, and the target.
func (d *Desk) filesRead() []string {
	read := []string{d.setup.Source.Path}
	if d.setup.Source.Kind == setup.SourceStill && d.Store != nil {
		read = d.Store.Files(d.setup.Source.Path)
	}
	if d.setup.Target != nil {
		read = append(read, d.setup.Target.Path)
	}
	return read
}

// watchedRegion is the region of the screen that is watched, or was before the window that is
// followed; empty if none is.
func (d *Desk) watchedRegion() image.Rectangle {
	switch d.setup.Source.Kind {
	case setup.SourceRegion:
		return d.setup.Source.Region
	case setup.SourceWindow:
		return d.settings.Region.Rectangle()
	}
	return image.Rectangle{}
}

// windowRenamed takes over the followed window's new title, as when another painting is opened in it:
// by that it is found again.
func windowRenamed(d *Desk, was setup.Source, title string) {
	if d.setup.Source != was { // another one is watched by now
		return
	}
	d.setup = d.history.Rename(d.setup, title)
	d.settings = d.settings.Renaming(was, d.setup.Source)
	d.memory.Renamed(was, d.setup.Source)
	d.remember()
	d.refresh()
	d.showState()
	d.Changed()
}

// joinMemory makes the owner of what comes back with a picture, and lays it on the first one.
func joinMemory(d *Desk) {
	d.memory = remember.Memory{Host: &d.Host, Settings: &d.settings, Local: d.families, Targets: d.target, Acts: remember.Acts{
		Save: d.keep, Unselect: func() { d.selected = -1 }, Put: d.apply, Along: func(by func(setup.Setup) setup.Setup) { along(d, by) },
	}}
	d.setup = d.memory.Begin(d.setup)
}
