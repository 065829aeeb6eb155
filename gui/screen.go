package gui

import (
	"context"
	"errors"
	"image"
	"sync"
	"time"

	"app.tonedesk/assets"
	"app.tonedesk/capture"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/setup"
)

// screen is the way to the screen, made when it is first needed and again after it broke.
// Its methods may be called from any goroutine.
type screen struct {
	pick func() (capture.Backend, error)

	mu      sync.Mutex
	backend capture.Backend
	window  capture.WindowStream // that was followed last; nil for none
}

// use calls do with the backend. A broken connection is closed, so that the next call
// makes a new one.
func (s *screen) use(do func(capture.Backend) error) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.backend == nil {
		backend, err := s.pick()
		if err != nil {
			return err
		}
		s.backend = backend
	}
	err := do(s.backend)
	if errors.Is(err, capture.ErrDisconnected) || errors.Is(err, capture.ErrClosed) {
		_ = s.backend.Close() // it is of no use any more, whatever it says
		s.backend = nil
	}
	return err
}

// open opens a region.
func (s *screen) open(ctx context.Context, region image.Rectangle) (stream capture.Stream, err error) {
	err = s.use(func(b capture.Backend) (err error) {
		stream, err = b.Open(ctx, region)
		return err
	})
	return stream, err
}

// opener returns the function that opens a source for the watcher; nil where there is none.
func (d *Desk) opener(from setup.Source) func(context.Context) (capture.Stream, error) {
	switch from.Kind {
	case setup.SourceNothing:
		return nil
	case setup.SourceRegion:
		return func(ctx context.Context) (capture.Stream, error) { return d.screen.open(ctx, from.Region) }
	case setup.SourceWindow:
		return func(ctx context.Context) (capture.Stream, error) { return openWindow(ctx, d, from) }
	case setup.SourcePicture:
		return func(context.Context) (capture.Stream, error) {
			return pictures.Follow(from.Path)
		}
	}
	if from.Kind == setup.SourceStill {
		return func(context.Context) (capture.Stream, error) { return d.stills.stream(from.Path) }
	}
	return openDemo
}

func openDemo(context.Context) (capture.Stream, error) {
	p, err := capture.DecodePicture(assets.DemoPNG)
	if err != nil {
		return nil, err
	}
	return p.Stream(), nil
}

// settleEvery is how long a picture of the desktop has to stand still to be taken: three
// pictures of a display that shows 60 a second. settleMost is how long that is waited for: a
// desktop on which something always moves never stands still. Both are our choice.
const (
	settleEvery = 50 * time.Millisecond
	settleMost  = time.Second
)

// picture grabs the whole desktop, as opaque RGBA, once gone reports that our own window is no
// longer on it and what lay beneath has been painted: once it stands still.
func (s *screen) picture(ctx context.Context, gone func() bool) (img *image.RGBA, desktop image.Rectangle, err error) {
	stream, err := s.open(ctx, image.Rectangle{})
	if err != nil {
		return nil, desktop, err
	}
	defer stream.Close()
	var f capture.Frame
	if err := settle(ctx, stream, &f, gone); err != nil {
		return nil, desktop, err
	}
	img = image.NewRGBA(image.Rectangle{Max: f.Size})
	pictures.CopyOpaque(img, pictures.Pixels(&f))
	return img, image.Rectangle{Max: f.Size}.Add(f.Origin), nil
}

// settle grabs until gone reports true and the picture is that of settleEvery before.
func settle(ctx context.Context, stream capture.Stream, f *capture.Frame, gone func() bool) error {
	tick := time.NewTicker(settleEvery)
	defer tick.Stop()
	late := time.After(settleMost)
	for {
		was := gone()
		changed, err := stream.Grab(ctx, f)
		if err != nil || was && !changed {
			return err
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-late:
			return nil
		case <-tick.C:
		}
	}
}
