package watching

import (
	"context"
	"image"
	"sync/atomic"

	"fyne.io/fyne/v2"

	"app.tonedesk/assets"
	"app.tonedesk/capture"
	"app.tonedesk/capture/monitors"
	"app.tonedesk/capture/picturefile"
	"app.tonedesk/gui/displays"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/setup"
)

// Ways are the ways to what can be watched. They are used on the Fyne goroutine only, but for
// what Opener returns.
type Ways struct {
	*host.Host
	Acts
	screen screen
	region regionPicker
	points pointing
	shares pointing // the desktop asks what to share

	Colours *displays.Colours // of the displays that are watched

	shared atomic.Pointer[sharedNow]       // what is shared and watched; nil: something else is watched
	own    atomic.Pointer[image.Rectangle] // where our own window lies, desktop pixels
}

// sharedNow is what is shared, once it was opened; nil where it doesn't know where it lies. Each choice
// of the painter's has its own, since what was chosen before may be opened late.
type sharedNow struct {
	stream atomic.Pointer[capture.Placed]
}

// Acts are what the ways ask of the window.
type Acts struct {
	Now     func() setup.Source                     // what is watched
	Region  func() image.Rectangle                  // of the screen, watched now or before; empty for none
	Handle  func() uintptr                          // of our own window
	Below   func() fyne.Position                    // where the list of windows opens
	Show    func()                                  // our own window again, that was hidden
	Watch   func(setup.Source)                      // the painter chose
	Renamed func(was setup.Source, title string)    // the window that is followed has another title
	Opened  func(setup.Source)                      // one was opened: the frames from now on are its own
	Still   func(id string) (capture.Stream, error) // opens one, on the watcher's goroutine
}

// New returns the ways; pick makes the one to the screen, when it is needed.
func New(h *host.Host, pick func() (capture.Backend, error), acts Acts) *Ways {
	w := &Ways{Host: h, Acts: acts, Colours: displays.New(displays.System{List: monitors.List, Profile: monitors.Profile})}
	w.screen.pick = pick
	w.region = regionPicker{
		Host: h, screen: &w.screen, handle: acts.Handle, chosen: acts.Region, back: acts.Show,
		take: func(region image.Rectangle) { acts.Watch(setup.Source{Kind: setup.SourceRegion, Region: region}) },
	}
	return w
}

// Follows reports whether windows can be followed, as far as is known without waiting: while
// the screen is busy they may.
func (w *Ways) Follows() bool {
	return w.screen.offers(func(b capture.Backend) bool { _, ok := b.(capture.Follower); return ok })
}

// PickRegion lets the painter choose a region on a frozen picture of the desktop, or has the desktop
// ask what to share where that is the way. While one is being chosen it does nothing.
func (w *Ways) PickRegion() {
	if w.Shares() {
		w.AskShare()
		return
	}
	w.region.pick()
}

// Opener returns the function that opens a source for the watcher; nil where there is none.
func (w *Ways) Opener(from setup.Source) func(context.Context) (capture.Stream, error) {
	w.Messages.Clear(host.MessageAlike)
	w.shared.Store(nil)
	if !from.Kind.OnScreen() {
		w.Colours.Elsewhere()
	}
	open := w.way(from)
	if open == nil {
		return nil
	}
	return func(ctx context.Context) (stream capture.Stream, err error) {
		if stream, err = open(ctx); err == nil {
			w.Soon(func() { w.Opened(from) })
		}
		return stream, err
	}
}

func (w *Ways) way(from setup.Source) func(context.Context) (capture.Stream, error) {
	switch from.Kind {
	case setup.SourceNothing:
		return nil
	case setup.SourceRegion:
		return w.coloured(func(capture.Stream) capture.Place { return capture.Place{Part: from.Region} }, func(ctx context.Context) (capture.Stream, error) { return w.screen.open(ctx, from.Region) })
	case setup.SourceWindow:
		return func(ctx context.Context) (capture.Stream, error) { return w.openWindow(ctx, from) }
	case setup.SourceShared:
		now := new(sharedNow)
		w.shared.Store(now)
		return w.coloured(placeOf, func(ctx context.Context) (capture.Stream, error) {
			s, err := w.screen.share(ctx, from.Window, from.Region)
			if placed, ok := s.(capture.Placed); err == nil && ok {
				now.stream.Store(&placed)
			}
			return s, err
		})
	case setup.SourcePicture:
		return func(context.Context) (capture.Stream, error) { return pictures.Follow(from.Path) }
	case setup.SourceStill:
		return func(context.Context) (capture.Stream, error) { return w.Still(from.Path) }
	case setup.SourceDemo:
	}
	return openDemo
}

// coloured has the frames of a stream say which colours the display shows there.
func (w *Ways) coloured(where func(capture.Stream) capture.Place, open func(context.Context) (capture.Stream, error)) func(context.Context) (capture.Stream, error) {
	return func(ctx context.Context) (capture.Stream, error) {
		s, err := open(ctx)
		if err != nil {
			return nil, err
		}
		return w.Colours.Of(s, func() capture.Place { return where(s) }), nil
	}
}

// OwnLies takes note of where our own window lies, desktop pixels; empty for nowhere.
func (w *Ways) OwnLies(at image.Rectangle) { w.own.Store(&at) }

// PerhapsOwn returns where our own window lies in what is shared, unless another window lies over it,
// which isn't known there; empty where it isn't known either where what is shared lies. Any goroutine
// may call it.
func (w *Ways) PerhapsOwn() image.Rectangle {
	now, own := w.shared.Load(), w.own.Load()
	if now == nil || own == nil {
		return image.Rectangle{}
	}
	s := now.stream.Load()
	if s == nil || w.Colours.Now().Monitor == "" { // measured otherwise than our window is
		return image.Rectangle{}
	}
	return (*s).Place().Pixels(*own)
}

// placeOf is where what the desktop shares lies, as far as it says.
func placeOf(s capture.Stream) capture.Place {
	if p, ok := s.(capture.Placed); ok {
		return p.Place()
	}
	return capture.Place{}
}

// Use calls do with the way to the screen. Any goroutine may call it.
func (w *Ways) Use(do func(capture.Backend) error) error { return w.screen.use(do) }

// Follower calls do with a backend that can follow windows, and with the window that was followed
// last; nil for none. The error wraps ErrUnsupported where there is none. Any goroutine may call it.
func (w *Ways) Follower(do func(capture.Follower, capture.WindowStream) error) error {
	return w.screen.follower(func(f capture.Follower) error { return do(f, w.screen.window) })
}

func openDemo(context.Context) (capture.Stream, error) {
	p, err := picturefile.Decode(assets.DemoPNG)
	if err != nil {
		return nil, err
	}
	return p.Stream(), nil
}
