package watching

import (
	"context"
	"errors"
	"fmt"
	"image"
	"sync"
	"time"

	"app.tonedesk/capture"
	"app.tonedesk/gui/pictures"
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

// offers reports whether the way to the screen is of a kind, as far as is known without waiting:
// while the screen is busy it may be.
func (s *screen) offers(is func(capture.Backend) bool) bool {
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
	return is(s.backend)
}

// point has the painter point at a window. What is watched can be opened meanwhile.
func (s *screen) point(ctx context.Context, over func(capture.Window, bool), own ...uint64) (capture.Window, error) {
	var p capture.Pointer
	err := s.use(func(b capture.Backend) error {
		var ok bool
		if p, ok = b.(capture.Pointer); !ok {
			return fmt.Errorf("point at a window: %w", capture.ErrUnsupported)
		}
		return nil
	})
	if err != nil {
		return capture.Window{}, err
	}
	return p.Point(ctx, over, own...)
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
