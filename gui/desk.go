package gui

import (
	"context"
	"errors"
	"image"
	"io"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
	"app.tonedesk/gui/comparing"
	"app.tonedesk/gui/flashlimit"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/pointer"
	"app.tonedesk/gui/remember"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/structure"
	"app.tonedesk/gui/watching"
	"app.tonedesk/gui/widgets"
)

// Options is what a Desk needs from the program around it.
type Options struct {
	Settings settings.Settings
	Keeper   *settings.Keeper                // where changed settings go
	Picture  string                          // file to show instead of what is remembered
	Screen   func() (capture.Backend, error) // the way to the screen, when it is needed
	Problems []string                        // sentences to show at the start
	Stills   *stills.Store                   // where stills are kept; nil if there is no place for them
	Messages string                          // file where messages for programmers are kept; "" for none
	Trace    io.Writer                       // gets a line of JSON for all that is shown; may be nil
	Quit     func()                          // ends the program
	Draw     func()                          // draws the windows at once, not at the toolkit's next turn; may be nil

	background func(func()) // runs what may take long; nil: on a goroutine of its own
}

// Desk is the controller: the one owner of what is watched, where the spots are and what
// is shown. Everything but frame and status runs on the Fyne goroutine.
type Desk struct {
	host.Host
	options  Options
	own      host.OwnWindow
	ways     *watching.Ways
	settings settings.Settings
	setup    setup.Setup
	history  setup.History
	selected int // a spot, or -1
	asking   asking
	frozen   bool
	hidden   bool // minimised: nothing is read
	closed   bool
	covered  image.Rectangle
	pointer  pointer.Reader
	pick     *image.Point

	worker     *live.Worker
	watcher    *capture.Watcher
	status     capture.Status
	last       lastPicture
	families   *structure.LocalColours
	target     *structure.Targets
	memory     remember.Memory
	copies     live.Copier
	comparison *comparing.Comparer
	flashes    flashlimit.Limiter[look]
	standing   standing
	marker     *marker
	stills     *keptStills
	clipboard  host.Clipboard
	saves      fileSaver
	leaver     host.Leaver
	trace      trace

	parts parts
	stop  atomic.Pointer[context.CancelFunc]
}

// lastPicture is what is known of the picture that was shown last.
type lastPicture struct {
	bounds  image.Rectangle // in the source's pixels
	space   *colour.Space   // in which it was read; nil: sRGB
	at      time.Time       // when it was read
	flashes bool            // by itself
	counted float64         // share of its pixels
	spots   []live.Reading
	small   []analysis.GapChange // what becomes of its gaps when it is seen small
	shape   live.Shape
}

// NewDesk builds the window, not yet shown. Use it on the Fyne goroutine only.
func NewDesk(app fyne.App, options Options) *Desk {
	d := &Desk{options: options, settings: options.Settings.Valid(), selected: -1}
	d.App, d.Store, d.Keys, d.Spawn = app, options.Stills, d, options.background
	if d.Spawn == nil {
		d.Spawn = func(f func()) { go f() }
	}
	d.Later = d.After
	d.LayOutPage, d.Notify, d.Changed = d.layOutPage, func(e host.PageEvent) { d.page().handle(e) }, func() { d.trace.state(d) }
	d.Steps = host.Steps{Now: func() setup.Setup { return d.setup }, Change: d.change, Settle: d.history.Settle}
	d.copies.Renew = d.refresh
	d.trace.w = options.Trace
	d.Messages.Changed = func() { d.trace.state(d) }
	d.Messages.Later = func(after time.Duration, f func()) func() { return d.Later(after, f) }
	d.flashes = flashlimit.Limiter[look]{Every: flashlimit.Every, Current: d.currentLook, Apply: d.applyLook, Later: func(after time.Duration, f func()) { d.Later(after, f) }}
	d.saves = fileSaver{Host: &d.Host, reads: d.filesRead}
	d.own = host.OwnWindow{Host: &d.Host, Moved: d.moved, Room: func(room fyne.Size) { d.parts.frame.SetRoom(room) }}
	d.own.Was = func(screens []image.Rectangle) (image.Rectangle, float32, float32) {
		return d.settings.PlaceOn(screens)
	}
	joinWays(d)
	d.setup.Source = firstSource(options.Picture, d.settings)
	noteWatched(d)
	d.setup.Shade = d.settings.Shade
	d.clipboard.Host, d.clipboard.Put = &d.Host, native.CopyPicture
	d.joinStills()
	joinPointer(d)
	d.families = structure.NewLocalColours(&d.Host, structure.LocalActs{Ask: d.askSide, Asked: func() structure.Side { return askedSide[d.asking] }, MakePair: d.makePair, GoOnFrom: goOnFrom(d), Refresh: d.refresh, Keep: func(list []setup.Judged) {
		if s := d.marker.Still(); s != nil {
			d.stills.judge(s, list)
		}
	}, KeepFocus: func(places []setup.Place) {
		if s := d.marker.Still(); s != nil {
			d.stills.focus(s, places)
		}
	}})
	d.target = &structure.Targets{Host: &d.Host, Grouping: func() analysis.Options { return d.settings.Grouping() }, CopyPicture: d.copyPicture, Put: d.apply}
	joinMemory(d)
	d.worker = live.NewWorker(live.Owner{Show: d.showSoon, Again: d.comeBack, Log: host.LogMistake}, d.families.Search)
	d.watcher = capture.NewWatcher(capture.Watch{
		Open:      d.ways.Opener(d.setup.Source),
		Frame:     d.worker.Frame,
		Status:    d.statusSoon,
		PerSecond: d.settings.PerSecond,
		Processor: func() time.Duration { return capture.ProcessorTime() - d.families.Search.Spent() }, // it has a pace of its own
		Own:       d.worker.Covered, PerhapsOwn: d.ways.PerhapsOwn,
	})
	d.standing.workspace.Host = &d.Host
	joinAutokeep(d)
	d.joinComparer()
	d.joinLeaver()
	d.parts.keys = joinEverywhere(d)
	d.parts.keys.Begin()
	d.build()
	d.publish()
	d.target.Restore(d.settings.Target, d.settings.TargetStill)
	return d
}

// Run watches until the desk is closed. It returns at once. The toolkit's loop has not begun yet.
func (d *Desk) Run() {
	beginTray(d)
	ctx, stop := context.WithCancel(context.Background())
	d.stop.Store(&stop)
	go d.Guarded("watch the picture", func() {
		searched := make(chan struct{})
		go d.Guarded("look for local colours", func() {
			defer close(searched)
			d.families.Search.Run(ctx)
		})
		_ = d.watcher.Run(ctx) // it only ever ends because of ctx
		d.worker.Close()
		<-searched
		d.families.Search.Close()
	})
	d.pointer.Begin(ctx)
	go d.Guarded("see in which colours the display shows", func() { d.ways.Colours.Run(ctx) })
	go d.Guarded("see where the window is", func() { d.own.Poll(ctx) })
	if d.Store != nil {
		go d.Guarded("see what others keep", func() {
			d.Store.Watch(ctx, func() { d.OnWindow(func() { d.Notify(host.FolderChanged) }) })
		})
	}
}

// Close stops watching and keeps the settings. Closing twice does nothing more: the window
// may be gone by then.
func (d *Desk) Close() {
	if d.closed {
		return
	}
	d.closed = true
	d.Leave()
	d.keep()
	d.Save()
	if s := d.marker.Still(); s != nil {
		d.marker.saver.Leave(s)
	}
}

// Save stops watching and saves what can be, since the program is about to end, but does not
// wait for ever. Any goroutine may call it.
func (d *Desk) Save() {
	d.Leave()
	err := host.Within(host.SaveMost, func() error {
		settings := d.options.Keeper.Flush() // first: a disk that does not answer must not keep them waiting
		d.Writing.Wait()
		return errors.Join(settings, d.marker.saver.Close())
	})
	if err != nil {
		fyne.LogError("saving at the end", err)
	}
}

// showSoon hands what the worker made to the window, and waits until it is taken: the
// brake that keeps frames from piling up. It is drawn then, while the next one is read.
func (d *Desk) showSoon(s *live.Shown) {
	d.OnWindow(func() { d.showFrame(s) })
	if d.options.Draw != nil {
		d.Soon(d.options.Draw)
	}
}

func (d *Desk) statusSoon(s capture.Status) { d.OnWindow(func() { d.setStatus(s) }) }

// Leave stops watching, since the program is about to end. Any goroutine may call it.
func (d *Desk) Leave() {
	d.Leaving.Store(true)
	d.parts.keys.LetGo()
	d.ways.Leave()
	if stop := d.stop.Load(); stop != nil {
		(*stop)()
	}
}

// copyPicture has the picture of now copied, and then calls do on the Fyne goroutine.
func (d *Desk) copyPicture(do func(*live.Copy)) { d.copies.CopyPicture(do) }

// comeBack asks for the last frame once more.
func (d *Desk) comeBack(after time.Duration) { time.AfterFunc(after, d.watcher.Again) }

// publish tells the worker what is wanted from now on.
func (d *Desk) publish() {
	mirror, flipped := d.Mirror, d.settings.Flipped
	d.worker.Want(live.Wanted{
		Setup:    d.setup,
		Settings: d.settings.Clone(),
		Lay:      d.fitter(mirror, flipped),
		Covered:  d.covered,
		Chips:    d.pointer.Covers,
		Look:     d.pointer.Over,
		Looking:  d.pointer.Inside,
		Families: d.page().wantsFamilies() || d.families.LightShown() || d.settings.Page == settings.PageColours,
		Followed: d.families.Followed(),
		Halves:   mirror.Halves(),
		Copies:   d.copies.Asked,
		Pick:     d.pick,
		Previews: d.parts.views.Room(),
	})
}

// fitter returns how the part of a picture that is to be shown would lie in the mirror of
// now, for any goroutine.
func (d *Desk) fitter(m *widgets.Mirror, flipped bool) func(image.Rectangle) live.Lay {
	size, scale, part := m.Room(), m.Scale(), m.View()
	view := live.ViewOf(live.Wanted{Settings: d.settings})
	knob := d.settings.Knob(view)
	halves := m.Halves()
	return func(bounds image.Rectangle) live.Lay {
		shown := widgets.ArrangeBeside(widgets.PartShown(part, bounds), live.BesideSize(view, knob, bounds), size, scale, flipped)
		if halves {
			shown = widgets.ArrangeHalves(widgets.PartShown(part, bounds), size, scale, flipped)
		}
		return live.Lay{Bounds: shown.Picture.Bounds, Pixels: shown.Picture.Pixels}
	}
}

// refresh shows the last picture again, as it is wanted now.
func (d *Desk) refresh() {
	d.publish()
	d.watcher.Again()
}

// Freeze holds the picture, or goes on.
func (d *Desk) Freeze() {
	if d.setup.Source.Kind == setup.SourceStill {
		d.stills.back()
		return
	}
	if d.last.at.IsZero() && !d.frozen { // nothing was seen as yet
		return
	}
	d.frozen = !d.frozen
	d.watcher.Freeze(d.frozen || d.hidden)
	d.standing.show(d)
	d.showState()
	d.Changed()
}

// settled takes changed settings over: to the window, the worker and the file.
func (d *Desk) settled() {
	d.settings = d.settings.Valid()
	d.ways.Colours.Choose(d.settings)
	d.watcher.SetRate(d.settings.PerSecond)
	d.showSettings()
	d.standing.keeps.Renew()
	d.refresh()
	d.keep()
}

// chosen takes settings over that were changed in their panel; was are those before. What is
// left out already follows.
func (d *Desk) chosen(was settings.Settings) {
	if within := d.settings.LikeWithin; within != was.LikeWithin && len(d.setup.Seeds) > 0 {
		d.change(d.setup.WithWithin(within), "")
	}
	if n := d.settings.Groups; n != was.Groups && len(d.setup.Borders) > 0 {
		d.settings.Groups = was.Groups
		d.setGroups(n)
	}
	d.settled()
}

// keep has the settings written soon, with the window's size of now; OwnWindow knows its
// place.
func (d *Desk) keep() {
	if size := d.Window.Canvas().Size(); size.Width > 0 {
		d.settings.Width, d.settings.Height = size.Width, size.Height
	}
	d.options.Keeper.Save(d.settings)
}

// Started is for the moment when the toolkit's loop runs and the window is on the screen.
func (d *Desk) Started() { d.restore() }
