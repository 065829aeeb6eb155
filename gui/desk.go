package gui

import (
	"context"
	"image"
	"io"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/capture"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
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

	aside func(func()) // runs what may take long; nil: on a goroutine of its own
}

// Desk is the controller: the one owner of what is watched, where the spots are and what
// is shown. Everything but frame and status runs on the Fyne goroutine.
type Desk struct {
	options  Options
	app      fyne.App
	window   fyne.Window
	native   nativeWindow
	settings settings.Settings
	setup    setup.Setup
	history  setup.History
	selected int // a spot, or -1
	asking   asking
	frozen   bool
	hidden   bool // minimised: nothing is read
	picking  bool // a region is being chosen
	closed   bool
	covered  image.Rectangle
	look     image.Point
	looking  bool
	pick     *image.Point

	aside      func(func()) // runs what may take long, on a goroutine of its own
	worker     *live.Worker
	search     *live.Search
	watcher    *capture.Watcher
	screen     screen
	status     capture.Status
	bounds     image.Rectangle // of the last picture
	at         time.Time       // when it was read
	pair       *analysis.Pair  // of the last picture, if there are two spots
	spots      []live.Reading
	hand       []live.FamilyReading
	small      []analysis.GapChange
	found      live.Found // last
	pointed    int        // row of the family that is outlined, or -1
	restoring  bool       // the target of the last time is being read
	taking     bool       // the next picture becomes the target
	copies     int        // of the picture, asked for so far
	copied     []func(*live.Copy)
	comparing  comparing
	comparison comparison
	turns      stills.Alternation
	calm       calm
	later      func(time.Duration, func()) // runs the function on the Fyne goroutine after a while
	still      *openStill                  // that is watched, or nil
	opening    sync.Mutex                  // held while a still is being opened, one at a time
	deleted    []string                    // IDs of stills, deleted last last
	kept       keptStill
	before     setup.Setup // from before stills
	pen        notePen
	layer      noteLayer
	saver      *noteSaver
	clip       pictureClip
	folder     string      // that files are saved to; "" before it is asked for
	half       setup.Place // the light side of a family that is being set by hand
	trace      trace

	parts   parts
	stop    atomic.Pointer[context.CancelFunc]
	leaving atomic.Bool // the program is ending
}

// NewDesk builds the window, not yet shown. Use it on the Fyne goroutine only.
func NewDesk(app fyne.App, options Options) *Desk {
	d := &Desk{options: options, app: app, settings: options.Settings.Valid(), selected: -1, pointed: -1}
	d.trace.w = options.Trace
	d.aside = options.aside
	if d.aside == nil {
		d.aside = func(f func()) { go f() }
	}
	d.calm.every = calmEvery
	d.later = func(after time.Duration, f func()) { time.AfterFunc(after, func() { d.onWindow(f) }) }
	d.screen.pick = options.Screen
	d.setup.Source = firstSource(options.Picture, d.settings)
	d.setup.Shade = d.settings.Shade
	d.clip.put = native.CopyPicture
	d.pen.d = d
	d.saver = newNoteSaver(options.Stills, saverEvents{d.soon, d.notesNotSaved, d.notesSaved})
	d.search = live.NewSearch(d.familiesSoon)
	d.worker = live.NewWorker(d.showSoon, d.comeBack, d.search)
	d.watcher = capture.NewWatcher(capture.Watch{
		Open:      d.opener(d.setup.Source),
		Frame:     d.worker.Frame,
		Status:    d.statusSoon,
		PerSecond: d.settings.PerSecond,
	})
	d.build()
	d.tell()
	d.restoreTarget()
	return d
}

// Run watches until the desk is closed. It returns at once.
func (d *Desk) Run() {
	ctx, stop := context.WithCancel(context.Background())
	d.stop.Store(&stop)
	go func() {
		searched := make(chan struct{})
		go func() {
			d.search.Run(ctx)
			close(searched)
		}()
		_ = d.watcher.Run(ctx) // it only ever ends because of ctx
		d.worker.Close()
		<-searched
		d.search.Close()
	}()
	go d.keepHouse(ctx)
}

// Close stops watching and keeps the settings. Closing twice does nothing more: the window
// may be gone by then.
func (d *Desk) Close() {
	if d.closed {
		return
	}
	d.closed = true
	d.Leave()
	if err := d.saver.close(); err != nil {
		fyne.LogError("saving notes while closing", err)
	}
	if d.still != nil {
		d.saver.leave(d.still.Still)
	}
	d.keep()
	if err := d.options.Keeper.Flush(); err != nil {
		fyne.LogError("keeping the settings", err)
	}
}

// showSoon hands what the worker made to the window, and waits until it is taken: the
// brake that keeps frames from piling up.
func (d *Desk) showSoon(s *live.Shown) { d.onWindow(func() { d.show(s) }) }

func (d *Desk) familiesSoon(f live.Found) { d.onWindow(func() { d.showFound(f) }) }

func (d *Desk) statusSoon(s capture.Status) { d.onWindow(func() { d.setStatus(s) }) }

// onWindow runs f on the Fyne goroutine and waits for it, unless the program is ending:
// the toolkit then runs what it is given on whichever goroutine gives it.
func (d *Desk) onWindow(f func()) {
	if d.leaving.Load() {
		return
	}
	fyne.DoAndWait(func() {
		if !d.leaving.Load() {
			f()
		}
	})
}

// Leave stops watching, since the program is about to end. Any goroutine may call it.
func (d *Desk) Leave() {
	d.leaving.Store(true)
	if stop := d.stop.Load(); stop != nil {
		(*stop)()
	}
}

// comeBack asks for the last frame once more.
func (d *Desk) comeBack(after time.Duration) { time.AfterFunc(after, d.watcher.Again) }

// tell tells the worker what is wanted from now on.
func (d *Desk) tell() {
	mirror, mirrored := d.parts.mirror, d.settings.Mirrored
	d.worker.Want(live.Wanted{
		Setup:    d.setup,
		Settings: d.settings.Clone(),
		Lay:      d.fitter(mirror, mirrored),
		Covered:  d.covered,
		Look:     d.look,
		Looking:  d.looking,
		Families: d.page().searches(),
		Halves:   mirror.Halves(),
		Copies:   d.copies,
		Pick:     d.pick,
	})
}

// fitter returns how the part of a picture that is to be shown would lie in the mirror of
// now, for any goroutine.
func (d *Desk) fitter(m *widgets.Mirror, mirrored bool) func(image.Rectangle) live.Lay {
	size, scale, part := m.Room(), m.Scale(), m.View()
	view := live.ViewOf(live.Wanted{Settings: d.settings})
	knob := d.settings.Knob(view)
	halves := m.Halves()
	return func(bounds image.Rectangle) live.Lay {
		shown := widgets.ArrangeBeside(widgets.PartShown(part, bounds), live.BesideSize(view, knob, bounds), size, scale, mirrored)
		if halves {
			shown = widgets.ArrangeHalves(widgets.PartShown(part, bounds), size, scale, mirrored)
		}
		return live.Lay{Bounds: shown.Picture.Bounds, Pixels: shown.Picture.Pixels}
	}
}

// renew shows the last picture again, as it is wanted now.
func (d *Desk) renew() {
	d.tell()
	d.watcher.Again()
}

// Freeze holds the picture, or goes on.
func (d *Desk) Freeze() {
	d.frozen = !d.frozen
	d.watcher.Freeze(d.frozen || d.hidden)
	d.showState()
	d.trace.state(d)
}

// setView shows another view.
func (d *Desk) setView(key string) {
	wish := d.wished()
	wish.view = key
	d.wishFor(wish)
}

// nextView goes through the views.
func (d *Desk) nextView(by int) {
	all := views.All()
	at := slices.IndexFunc(all, func(v views.View) bool { return v.Key == d.wished().view })
	d.setView(all[(at+by+len(all))%len(all)].Key)
}

// settled takes changed settings over: to the window, the worker and the file.
func (d *Desk) settled() {
	d.settings = d.settings.Valid()
	d.watcher.SetRate(d.settings.PerSecond)
	d.showSettings()
	d.renew()
	d.keep()
}

// keep has the settings written soon, with the window's size of now; keepHouse knows its
// place.
func (d *Desk) keep() {
	if size := d.window.Canvas().Size(); size.Width > 0 {
		d.settings.Width, d.settings.Height = size.Width, size.Height
	}
	d.options.Keeper.Save(d.settings)
}

// Started is for the moment when the toolkit's loop runs and the window is on the screen.
func (d *Desk) Started() { d.restore() }
