package watching

import (
	"context"
	"image"

	"app.tonedesk/capture"
	"app.tonedesk/gui/setup"
)

// openWindow opens the window that is followed. It runs on a goroutine of the watcher's.
func (w *Ways) openWindow(ctx context.Context, from setup.Source) (stream capture.Stream, err error) {
	var own uint64
	w.OnWindow(func() { own = uint64(w.Handle()) })
	err = w.screen.follower(func(f capture.Follower) error {
		s, err := f.Follow(ctx, capture.Window{ID: from.Window, Title: from.Title, Class: from.Class}, from.Region, own)
		if err == nil {
			w.screen.window = s
			stream = &windowStream{s, from, func(was setup.Source, title string) { w.Soon(func() { w.Renamed(was, title) }) }}
			stream = w.Colours.Of(stream, func() image.Rectangle { return s.Window().Rect })
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
