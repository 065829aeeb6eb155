package capture

import (
	"context"
	"fmt"
	"image"
	"sync"
	"time"

	"app.tonedesk/capture/xconn"
)

// x11OpenTimeout is how long a display may take to let us in: far longer than a busy
// one needs, short enough to say something to the painter. Common practice, no source.
const x11OpenTimeout = 5 * time.Second

// x11Backend reads the root window of an X server over the one connection, with
// shared memory where it can. If the server ends, the next Open, Desktop or
// Monitors makes a new connection.
type x11Backend struct {
	display string
	line    xconn.Line // requests that are no stream's, one after the other

	mu      sync.Mutex // guards what follows
	session *x11Session
	streams map[*x11Stream]bool
	closed  bool
}

// x11Session is what holds as long as one connection does.
type x11Session struct {
	conn   *xconn.Conn
	root   *x11Root
	format *x11Format
	once   sync.Once
}

// openX11 opens the X server that display names. Errors wrap ErrNoDisplay,
// ErrRefused, ErrNotAnswering, ErrDisconnected, ErrFormat (the server's pixels are
// of a kind that we refuse) or ErrWayland.
func openX11(display string) (Backend, error) {
	ctx, cancel := context.WithTimeout(context.Background(), x11OpenTimeout)
	defer cancel()
	b := &x11Backend{display: display, streams: map[*x11Stream]bool{}}
	if err := b.do(ctx, func() error { _, err := b.connect(ctx); return err }); err != nil {
		b.Close()
		return nil, fmt.Errorf("open x11 %q: %w", display, err)
	}
	return b, nil
}

// Name implements Backend.
func (b *x11Backend) Name() string { return "x11" }

// Desktop implements Backend.
func (b *x11Backend) Desktop(ctx context.Context) (image.Rectangle, error) {
	return x11Ask(ctx, b, func(s *x11Session) (image.Rectangle, error) { return s.root.ask() })
}

// Monitors implements Backend.
func (b *x11Backend) Monitors(ctx context.Context) ([]Monitor, error) {
	return x11Ask(ctx, b, func(s *x11Session) ([]Monitor, error) {
		bounds, err := s.root.ask()
		if err != nil {
			return nil, err
		}
		return x11Monitors(s.conn, bounds)
	})
}

// Open implements Backend.
func (b *x11Backend) Open(ctx context.Context, region image.Rectangle) (Stream, error) {
	if region.Empty() && region != (image.Rectangle{}) {
		return nil, fmt.Errorf("open %v: %w", region, ErrEmpty)
	}
	var mu sync.Mutex // between us and an opening that we no longer wait for
	var made *x11Stream
	left := false
	stream, err := x11Ask(ctx, b, func(session *x11Session) (*x11Stream, error) {
		s, err := openX11Stream(session.conn, session.root, session.format, region)
		if err != nil {
			return nil, err
		}
		mu.Lock()
		defer mu.Unlock()
		if left || !b.keep(s) {
			s.Close()
			return nil, ErrClosed
		}
		made = s
		return s, nil
	})
	if err != nil {
		mu.Lock()
		defer mu.Unlock()
		left = true
		if made != nil {
			made.Close()
		}
		return nil, fmt.Errorf("open %v: %w", region, err)
	}
	return stream, nil
}

// keep remembers s, so that Close ends it; false if the backend is closed.
func (b *x11Backend) keep(s *x11Stream) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.closed {
		return false
	}
	b.streams[s] = true
	s.forget = func() {
		b.mu.Lock()
		defer b.mu.Unlock()
		delete(b.streams, s)
	}
	return true
}

// x11Ask runs f with a living session, until ctx ends.
func x11Ask[T any](ctx context.Context, b *x11Backend, f func(*x11Session) (T, error)) (T, error) {
	var v, none T
	err := b.do(ctx, func() error {
		s, err := b.connect(ctx)
		if err == nil {
			v, err = f(s)
		}
		return err
	})
	if err != nil {
		return none, err // v may still be written to
	}
	return v, nil
}

// do runs f on the backend's line.
func (b *x11Backend) do(ctx context.Context, f func() error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	return x11Error(b.line.Do(ctx, f))
}

// connect returns the living session, or makes one. It runs on the line.
func (b *x11Backend) connect(ctx context.Context) (*x11Session, error) {
	b.mu.Lock()
	s, closed := b.session, b.closed
	b.mu.Unlock()
	if closed {
		return nil, ErrClosed
	}
	if s != nil && s.conn.Alive() {
		return s, nil
	}
	if s != nil {
		s.end()
	}
	s, err := newX11Session(ctx, b.display)
	if err != nil {
		return nil, err
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.closed {
		s.end()
		return nil, ErrClosed
	}
	b.session = s
	return s, nil
}

// newX11Session connects and finds out whether the screen can be read.
func newX11Session(ctx context.Context, display string) (*x11Session, error) {
	c, err := xconn.Acquire(ctx, display)
	if err != nil {
		return nil, err
	}
	s := &x11Session{conn: c}
	if err := s.begin(); err != nil {
		s.end()
		return nil, err
	}
	return s, nil
}

func (s *x11Session) begin() (err error) {
	if s.format, err = x11FormatOf(s.conn.Setup, s.conn.Screen); err != nil {
		return err
	}
	if s.root, err = watchX11Root(s.conn); err != nil {
		return err
	}
	bounds, err := s.root.bounds()
	if err != nil {
		return err
	}
	monitors, err := x11Monitors(s.conn, bounds)
	if err != nil {
		return err
	}
	return refuseXWayland(s.conn, monitors)
}

// end gives the connection back.
func (s *x11Session) end() {
	s.once.Do(func() {
		if s.root != nil {
			s.root.cancel()
		}
		s.conn.Release()
	})
}

// Close implements Backend. It doesn't wait for the server.
func (b *x11Backend) Close() error {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.closed {
		return nil
	}
	b.closed = true
	for s := range b.streams {
		s.line.Close(s.release)
	}
	b.line.Close(nil) // before the connection is cut: what fails then was closed, not lost
	if b.session != nil {
		b.session.end()
	}
	return nil
}
