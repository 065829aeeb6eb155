package capture

import (
	"context"
	"errors"
	"fmt"
	"image"
	"slices"
	"time"

	"app.tonedesk/capture/xconn"
	"github.com/jezek/xgb/xproto"
)

// x11Stream reads a region of the root window. Two pictures take turns: the server
// fills the back one while the front one is what the last change handed out.
type x11Stream struct {
	*x11Session
	backend *x11Backend
	wanted  image.Rectangle // root pixels; empty: the whole root
	line    xconn.Line      // makes the requests; what follows is the running one's
	fetch   func() error    // s.look, bound once so that a grab allocates nothing for it
	shared  bool            // shared memory works
	images  [2]x11Image
	back    int       // index of the picture to be filled
	plain   [2][]byte // the pictures as BGRX, where the format needs it
	next    Frame     // what the last request found new; Pix nil: nothing
}

// Grab implements Stream. Errors wrap ErrGone, ErrNotAnswering, ErrDisconnected or
// ErrClosed.
func (s *x11Stream) Grab(ctx context.Context, f *Frame) (bool, error) {
	if err := s.backend.do(ctx, &s.line, s.fetch); err != nil {
		return false, fmt.Errorf("grab %v: %w", s.wanted, err)
	}
	if s.next.Pix == nil {
		return false, nil
	}
	*f = s.next
	s.back = 1 - s.back
	return true, nil
}

// look reads the region, and puts what is new into next. It runs on the line to its
// end: who closes the line takes the memory, and must not do so under our eyes.
func (s *x11Stream) look() error {
	s.next = Frame{}
	if err := s.fill(); err != nil {
		return err
	}
	front, back := &s.images[1-s.back], &s.images[s.back]
	rect := back.rect
	if front.raw != nil && front.rect == rect && s.format.same(front.raw, back.raw, rect.Dx(), rect.Dy()) {
		return nil
	}
	at := time.Now()
	s.next = Frame{Pix: s.bgrx(back), Stride: 4 * rect.Dx(), Size: rect.Size(), Layout: BGRX, Origin: rect.Min, At: at}
	return nil
}

// bgrx returns the back picture's pixels as BGRX rows without gaps.
func (s *x11Stream) bgrx(back *x11Image) []byte {
	w, h := back.rect.Dx(), back.rect.Dy()
	if s.format.direct {
		return back.raw // four bytes a pixel: no gaps, whatever the padding
	}
	buf := slices.Grow(s.plain[s.back][:0], 4*w*h)[:4*w*h]
	s.plain[s.back] = buf
	s.format.convert(buf, back.raw, w, h)
	return buf
}

// fill reads the region into the back picture. It runs on the line.
func (s *x11Stream) fill() error {
	back := &s.images[s.back]
	for try := 0; ; try++ {
		bounds, err := s.bounds()
		if err != nil {
			return err
		}
		rect := bounds
		if !s.wanted.Empty() {
			rect = s.wanted.Intersect(bounds)
		}
		if rect.Empty() {
			return fmt.Errorf("%w: nothing of it is on the desktop of %v", ErrGone, bounds)
		}
		room := s.format.stride(bounds.Dx()) * bounds.Dy() // no region needs more
		err = back.read(s.conn, s.format, rect, room, s.shared)
		if err == nil {
			return nil
		}
		var mismatch xproto.MatchError
		switch {
		case errors.As(err, &mismatch) && try == 0:
			s.stale.Store(true) // the desktop has shrunk and the notice is still under way
		case errors.As(err, &mismatch):
			return fmt.Errorf("%w: %w", ErrGone, err)
		case !s.conn.Alive():
			return fmt.Errorf("%w: %w", xconn.ErrBroken, err)
		case s.shared && !errors.Is(err, xconn.ErrBroken):
			s.shared = false // from now on over the wire
		default:
			return err
		}
	}
}

// Close implements Stream. It doesn't wait: a request that hangs keeps its memory
// until it has returned.
func (s *x11Stream) Close() error {
	s.line.Close(s.release)
	return nil
}

// release gives the memory back. No request is running.
func (s *x11Stream) release() {
	for i := range s.images {
		s.images[i].detach(s.conn)
	}
}
