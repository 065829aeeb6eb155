package portal

import (
	"context"
	"errors"
	"fmt"
	"image"
	"sync"

	"app.tonedesk/capture"
)

// windowsAlone is what package capture has for a Wayland session.
type windowsAlone interface {
	capture.Follower
	capture.Looker
}

// backend shares what the painter lets the desktop share, one thing at a time, and follows windows of
// X11 programs beside it.
type backend struct {
	windowsAlone
	address string // of the session's bus
	tokens  Tokens
	waits   waits

	mu      sync.Mutex
	session *session // the one that was begun last; nil before the first
	numbers uint64
	closed  bool
}

// Ask implements capture.Sharer.
func (b *backend) Ask(ctx context.Context, own uint64) (number uint64, err error) {
	ctx, cancel := context.WithCancel(ctx)
	b.mu.Lock()
	if b.closed {
		b.mu.Unlock()
		cancel()
		return 0, capture.ErrClosed
	}
	b.numbers++
	s := newSession(b.numbers, cancel)
	b.mu.Unlock()
	if err := s.begin(ctx, b.address, b.waits, b.tokens, "", own); err != nil {
		if ctx.Err() != nil && s.ended() == nil {
			err = fmt.Errorf("%w: %w", capture.ErrGivenUp, err)
		}
		s.end(err)
		return 0, fmt.Errorf("ask what to share: %w", err)
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if before := b.session; before != nil {
		before.end(errUnread)
	}
	b.session = s
	if b.closed {
		s.end(capture.ErrClosed)
		return 0, capture.ErrClosed
	}
	return s.number, nil
}

// Share implements capture.Sharer.
func (b *backend) Share(_ context.Context, number uint64, part image.Rectangle) (capture.Stream, error) {
	if part.Empty() && part != (image.Rectangle{}) {
		return nil, fmt.Errorf("share part %v: %w", part, capture.ErrEmpty)
	}
	r := &stream{part: part, tokens: make(chan struct{}, 1)}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.closed {
		return nil, capture.ErrClosed
	}
	if s := b.session; s != nil && (number == s.number || number == 0) {
		r.session = s
		if s.join(r) {
			return r, nil
		}
		if number == s.number && !errors.Is(s.ended(), errUnread) {
			return r, nil // which says why; only the painter begins it anew
		}
	}
	token := b.tokens.Load()
	if token == "" {
		return nil, fmt.Errorf("share what was shared before: %w", capture.ErrNotShared)
	}
	ctx, cancel := context.WithCancel(context.Background()) // the beginning outlasts this call
	s := newSession(number, cancel)
	if b.session != nil {
		b.session.end(errUnread)
	}
	r.session, b.session = s, s
	s.join(r)
	go func() {
		if err := s.begin(ctx, b.address, b.waits, b.tokens, token, 0); err != nil {
			s.end(err)
		}
	}()
	return r, nil
}

// Close implements capture.Backend.
func (b *backend) Close() error {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.closed = true
	if b.session != nil {
		b.session.end(capture.ErrClosed)
	}
	return b.windowsAlone.Close()
}
