package portal

import (
	"context"
	"errors"
	"fmt"
	"image"
	"strings"
	"sync"

	"app.tonedesk/capture"
)

// windowsAlone is what package capture has for a Wayland session.
type windowsAlone interface {
	capture.Follower
	capture.Looker
}

// backend shares what the painter lets the desktop share, one thing at a time, by the portal or else
// by the compositor's own way, and follows windows of X11 programs beside it.
type backend struct {
	windowsAlone
	address string // of the session's bus
	tokens  Tokens
	waits   waits
	screens screens

	mu      sync.Mutex
	session *session // the one that was begun last; nil before the first
	numbers uint64
	closed  bool
}

// Ask implements capture.Sharer.
func (b *backend) Ask(ctx context.Context, own uint64) (number uint64, err error) {
	begin, cancel := context.WithCancel(ctx)
	b.mu.Lock()
	if b.closed {
		b.mu.Unlock()
		cancel()
		return 0, capture.ErrClosed
	}
	b.numbers++
	s := newSession(b.numbers, cancel)
	b.mu.Unlock()
	if err := s.begin(begin, b.address, b.waits, b.tokens, "", own); err != nil {
		if ctx.Err() != nil && s.ended() == nil {
			err = fmt.Errorf("%w: %w", capture.ErrGivenUp, err)
		}
		s.end(err)
		if number, err = b.askCompositor(ctx, err); err != nil {
			err = fmt.Errorf("ask what to share: %w", err)
		}
		return number, err
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
func (b *backend) Share(ctx context.Context, number uint64, part image.Rectangle) (capture.Stream, error) {
	if part.Empty() && part != (image.Rectangle{}) {
		return nil, fmt.Errorf("share part %v: %w", part, capture.ErrEmpty)
	}
	b.mu.Lock()
	name, closed := b.screen(number), b.closed
	b.mu.Unlock()
	switch {
	case closed:
		return nil, capture.ErrClosed
	case name != "":
		return b.shareScreen(ctx, name, part)
	}
	return b.shareByPortal(number, part)
}

// shareByPortal begins to read what the portal shares.
func (b *backend) shareByPortal(number uint64, part image.Rectangle) (capture.Stream, error) {
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
	if b.session != nil {
		b.session.kept()
	}
	token := b.tokens.Load()
	if token == "" || strings.HasPrefix(token, ofScreen) {
		return nil, fmt.Errorf("share what was shared before: %w", capture.ErrNotShared)
	}
	begin, cancel := context.WithCancel(context.Background()) // the beginning outlasts this call
	s := newSession(number, cancel)
	if b.session != nil {
		b.session.end(errUnread)
	}
	r.session, b.session = s, s
	s.join(r)
	go func() {
		if err := s.begin(begin, b.address, b.waits, b.tokens, token, 0); err != nil {
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
		b.session.kept()
	}
	return b.windowsAlone.Close()
}
