package capture

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"sync"
	"time"

	"app.tonedesk/capture/xconn"
)

// x11OpenTimeout is how long a display may take to let us in: far longer than a busy
// one needs, short enough to say something to the painter. Common practice, no source.
const x11OpenTimeout = 5 * time.Second

// x11Backend reads the root window of an X server over the one connection, with
// shared memory where it can. If the server ends, the next Open makes a new connection.
type x11Backend struct {
	display string
	line    xconn.Line // requests that are no stream's, one after the other

	pointing xconn.Line // the painter points at a window: one at a time, for as long as they like

	mu      sync.Mutex // guards what follows
	session *x11Session
	closed  bool
}

// openX11 opens the X server that display names. One that only serves old programs in a Wayland
// session gives an xwayland. Errors wrap ErrNoDisplay, ErrRefused, ErrNotAnswering,
// ErrDisconnected, or ErrFormat (the server's pixels are of a kind that we refuse).
func openX11(display string) (Backend, error) {
	ctx, cancel := context.WithTimeout(context.Background(), x11OpenTimeout)
	defer cancel()
	b := &x11Backend{display: display}
	rootless := false
	err := b.do(ctx, &b.line, func() error {
		s, err := b.connect(ctx)
		rootless = err == nil && s.rootless
		return err
	})
	if err != nil {
		b.Close()
		return nil, fmt.Errorf("open x11 %q: %w", display, err)
	}
	if rootless {
		return xwayland{b}, nil
	}
	return b, nil
}

// Open implements Backend. The stream holds no memory before its first Grab, so one that
// comes when nobody waits for it any more needs no end.
func (b *x11Backend) Open(ctx context.Context, region image.Rectangle) (Stream, error) {
	var stream *x11Stream
	err := b.do(ctx, &b.line, func() error {
		session, err := b.connect(ctx)
		if err != nil {
			return err
		}
		if err := session.shows(); err != nil {
			return err
		}
		bounds, err := session.ask()
		if err != nil {
			return err
		}
		if _, err := clip(region, bounds); err != nil {
			return err
		}
		source := newX11Region(session, region)
		stream = newX11Stream(b, session, source, source.tokens)
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("open %v: %w", region, err) // stream may still be written to
	}
	return stream, nil
}

// do runs f on a line until ctx ends. Its errors are this package's.
func (b *x11Backend) do(ctx context.Context, line *xconn.Line, f func() error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	err := line.Do(ctx, f)
	if err == nil {
		return nil
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.closed { // we cut the connection ourselves, so that is no loss of it
		return fmt.Errorf("%w: %v", ErrClosed, err)
	}
	for _, as := range []struct{ from, to error }{
		{xconn.ErrNotAnswering, ErrNotAnswering},
		{xconn.ErrNoDisplay, ErrNoDisplay},
		{xconn.ErrRefused, ErrRefused},
		{xconn.ErrBroken, ErrDisconnected},
		{xconn.ErrShut, ErrClosed},
		{io.EOF, ErrDisconnected}, // how the client library says that the connection has ended
	} {
		if errors.Is(err, as.from) {
			return fmt.Errorf("%w: %w", as.to, err)
		}
	}
	return err
}

// connect returns the living session, or makes one. It runs on the line.
func (b *x11Backend) connect(ctx context.Context) (*x11Session, error) {
	b.mu.Lock()
	if b.session != nil && !b.session.conn.Alive() {
		b.endSession()
	}
	s, closed := b.session, b.closed
	b.mu.Unlock()
	if closed {
		return nil, ErrClosed
	}
	if s != nil {
		return s, nil
	}
	s, err := newX11Session(ctx, b.display)
	if err != nil {
		return nil, err
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.session = s
	if b.closed {
		b.endSession()
		return nil, ErrClosed
	}
	return s, nil
}

// endSession gives the connection back, if there is one. b.mu is held.
func (b *x11Backend) endSession() {
	if b.session != nil {
		b.session.cancel()
		b.session.conn.Release()
		b.session = nil
	}
}

// Close implements Backend. It doesn't wait for the server.
func (b *x11Backend) Close() error {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.closed = true
	b.endSession()
	return nil
}
