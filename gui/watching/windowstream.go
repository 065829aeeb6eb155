package watching

import (
	"context"

	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// openWindow opens the window that is followed. It runs on a goroutine of the watcher's.
func (w *Ways) openWindow(ctx context.Context, from setup.Source) (stream capture.Stream, err error) {
	var own uint64
	w.OnWindow(func() { own = uint64(w.Handle()) })
	err = w.screen.follower(func(f capture.Follower) error {
		s, err := f.Follow(ctx, capture.Window{ID: from.Window, Title: from.Title, Class: from.Class}, from.Region, own)
		if err == nil {
			w.screen.window = s
			stream = &windowStream{WindowStream: s, from: from,
				renamed: func(was setup.Source, title string) { w.Soon(func() { w.Renamed(was, title) }) },
				doubted: func(alike int) { w.Soon(func() { w.sayAlike(from, alike) }) },
			}
			stream = w.Colours.Of(stream, func() capture.Place { return capture.Place{Part: s.Window().Rect} })
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
	doubted func(alike int)                      // told of a window found that others might be meant as well
	doubts  int                                  // how many, as it was told last
}

// Grab implements capture.Stream.
func (s *windowStream) Grab(ctx context.Context, f *capture.Frame) (changed bool, err error) {
	changed, err = s.WindowStream.Grab(ctx, f)
	f.Origin = s.from.Region.Min
	now := s.Window()
	if err == nil && now.Title != s.from.Title {
		was := s.from
		s.from.Title = now.Title
		s.renamed(was, now.Title)
	}
	if err == nil && now.Alike != s.doubts {
		s.doubts = now.Alike
		s.doubted(now.Alike)
	}
	return changed, err
}

// sayAlike says that others of the window's title and class are there, and lets the painter choose;
// none says that no more.
func (w *Ways) sayAlike(from setup.Source, others int) {
	if others == 0 || !w.Now().SameWindow(from) {
		w.Messages.Clear(host.MessageAlike)
		return
	}
	w.Messages.Offer(host.MessageAlike, wording.SayAlike(1+others), host.MessageAct{Name: "Choose", Do: w.AskWindow})
}
