package gui

import (
	"context"
	"fmt"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/capture"
	"app.tonedesk/gui/menus"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// listWait is how long the list of windows may take.
const listWait = 5 * time.Second

// follower calls do with a backend that can follow windows. The error wraps ErrUnsupported
// where there is none.
func (s *screen) follower(do func(capture.Follower) error) error {
	return s.use(func(b capture.Backend) error {
		f, ok := b.(capture.Follower)
		if !ok {
			return fmt.Errorf("follow a window: %w", capture.ErrUnsupported)
		}
		return do(f)
	})
}

// follows reports whether windows can be followed, as far as is known without waiting: while
// the screen is busy they may.
func (s *screen) follows() bool {
	if !s.mu.TryLock() {
		return true
	}
	defer s.mu.Unlock()
	if s.backend == nil {
		backend, err := s.pick()
		if err != nil {
			return false
		}
		s.backend = backend
	}
	_, ok := s.backend.(capture.Follower)
	return ok
}

// openWindow opens the window that is followed. It runs on a goroutine of the watcher's.
func openWindow(ctx context.Context, d *Desk, from setup.Source) (stream capture.Stream, err error) {
	var own uint64
	d.OnWindow(func() { own = uint64(d.own.Handle()) })
	err = d.screen.follower(func(f capture.Follower) error {
		w, err := f.Follow(ctx, capture.Window{Title: from.Title, Class: from.Class}, from.Region, own)
		if err == nil {
			d.screen.window = w
			stream = &windowStream{w, from, func(was setup.Source, title string) { d.Soon(func() { windowRenamed(d, was, title) }) }}
		}
		return err
	})
	return stream, err
}

// windowStream is a window's stream whose places count from the window's inside's top left: spots
// stay on the picture when the window moves.
type windowStream struct {
	capture.WindowStream
	from    setup.Source
	renamed func(was setup.Source, title string) // told when the window's title is another
}

// Grab implements capture.Stream.
func (s *windowStream) Grab(ctx context.Context, f *capture.Frame) (changed bool, err error) {
	changed, err = s.WindowStream.Grab(ctx, f)
	f.Origin = s.from.Region.Min
	if title := s.Window().Title; err == nil && title != s.from.Title {
		was := s.from
		s.from.Title = title
		s.renamed(was, title)
	}
	return changed, err
}

// windowRenamed takes over the followed window's new title, as when another painting is opened in it:
// by that it is found again.
func windowRenamed(d *Desk, was setup.Source, title string) {
	if d.setup.Source != was { // another one is watched by now
		return
	}
	d.setup = d.history.Rename(d.setup, title)
	d.settings = d.settings.Renaming(was, d.setup.Source)
	d.remember()
	d.refresh()
	d.showState()
	d.Changed()
}

// followWindow lists the windows that can be followed, at a point of the window, and follows the
// one that is tapped.
func followWindow(d *Desk, at fyne.Position) {
	own := uint64(d.own.Handle())
	var list []menus.Window
	d.Background(func() error {
		ctx, cancel := context.WithTimeout(context.Background(), listWait)
		defer cancel()
		return d.screen.follower(func(f capture.Follower) error {
			windows, err := f.Windows(ctx, own)
			for _, w := range windows {
				list = append(list, menus.Window{From: setup.Source{Kind: setup.SourceWindow, Title: w.Title, Class: w.Class}, Minimised: w.Minimised})
			}
			return err
		})
	}, func(err error) {
		switch {
		case err != nil:
			d.Messages.Fail(wording.ExplainFollowing("list the windows", err))
			fyne.LogError("listing windows", err)
		case len(list) == 0:
			d.Messages.Note("No window is open to follow")
		default:
			d.OpenMenu(menus.Windows{List: list, Now: d.setup.Source, Follow: d.watch}.Rows(), at, nil)
		}
	})
}

// askWindow lists them below the source in the bar.
func askWindow(d *Desk) { followWindow(d, d.parts.bar.Source.Below()) }
