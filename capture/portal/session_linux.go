package portal

import (
	"context"
	"errors"
	"fmt"
	"image"
	"sync"
	"time"

	"github.com/godbus/dbus/v5"

	"app.tonedesk/capture"
	"app.tonedesk/capture/pipewire"
)

// linger is how long a session that nobody reads goes on: while its part changes one stream ends and
// another begins. Our choice.
const linger = 3 * time.Second

// errUnread: nobody read the session any more, or another took its place, so we ended it.
var errUnread = fmt.Errorf("%w: nobody reads it any more", capture.ErrNotShared)

// session is something that is shared, from the first question to its end.
type session struct {
	number uint64
	cancel context.CancelFunc // of its beginning

	keeping sync.Mutex // held while the token is written

	mu      sync.Mutex
	bus     *bus // nil before it is there, and after the end
	path    dbus.ObjectPath
	source  *pipewire.Source // nil before the first
	at      image.Rectangle  // where that lies; empty where it isn't told
	why     error            // it has ended
	streams map[*stream]bool // that read it
	timer   *time.Timer      // runs while nobody does
}

// newSession begins nothing yet.
func newSession(number uint64, cancel context.CancelFunc) *session {
	s := &session{number: number, cancel: cancel, streams: map[*stream]bool{}}
	s.timer = time.AfterFunc(usual.people+usual.call, func() { s.endIf(func() bool { return len(s.streams) == 0 }, errUnread) })
	return s
}

// begin begins it, and keeps the token for the next time.
func (s *session) begin(ctx context.Context, address string, w waits, tokens Tokens, token string, own uint64) error {
	if err := pipewire.Loads(); err != nil {
		return fmt.Errorf("%w: %v", capture.ErrNoLibrary, err)
	}
	b, err := connect(ctx, address, use{of: screenCast, waits: w, ended: s.endedBy})
	if err != nil {
		return err
	}
	s.mu.Lock()
	if s.why != nil { // meanwhile
		s.mu.Unlock()
		b.conn.Close()
		return s.ended()
	}
	s.bus = b
	s.mu.Unlock()
	c, err := b.begin(ctx, wish{token: token, own: own, began: func(path dbus.ObjectPath) {
		s.mu.Lock()
		s.path = path
		s.mu.Unlock()
	}})
	if err != nil {
		if token != "" && errors.Is(err, capture.ErrGivenUp) { // what was kept did not do, and the painter said no
			tokens.Keep("")
		}
		return err
	}
	s.keeping.Lock()
	go func() { // a disk may take longer than all else
		defer s.keeping.Unlock()
		tokens.Keep(c.token)
	}()
	source, err := pipewire.Open(c.socket, c.node, s.tell)
	if err != nil {
		return inWords(err)
	}
	s.mu.Lock()
	ended := s.why != nil
	if !ended {
		s.source, s.at = source, c.at
		s.rest()
	}
	s.mu.Unlock()
	if ended {
		source.Close()
		return s.ended()
	}
	s.tell()
	return nil
}

// inWords turns the errors of package pipewire into those of package capture.
func inWords(err error) error {
	for _, as := range []struct{ from, to error }{
		{pipewire.ErrLibrary, capture.ErrNoLibrary}, {pipewire.ErrEnded, capture.ErrStopped},
		{pipewire.ErrFormat, capture.ErrFormat}, {pipewire.ErrPart, capture.ErrPart},
	} {
		if errors.Is(err, as.from) {
			return fmt.Errorf("%w: %w", as.to, err)
		}
	}
	return err
}

// endedBy is told by the bus that a session has ended, or all of them.
func (s *session) endedBy(path dbus.ObjectPath, why error) {
	s.mu.Lock()
	ours := path == "" || path == s.path
	s.mu.Unlock()
	if ours {
		s.end(why)
	}
}

// end ends it, the first time it is called.
func (s *session) end(why error) { s.endIf(func() bool { return true }, why) }

// endIf does so if that is so; sure is asked while s.mu is held.
func (s *session) endIf(sure func() bool, why error) {
	s.mu.Lock()
	if s.why != nil || !sure() {
		s.mu.Unlock()
		return
	}
	s.why = why
	b, path, source := s.bus, s.path, s.source
	s.bus, s.source = nil, nil
	s.timer.Stop()
	s.mu.Unlock()
	s.cancel()
	s.tell()
	go func() { // neither is waited for
		if source != nil {
			source.Close()
		}
		if b != nil {
			b.close(path)
		}
	}()
}

// ended returns why it has ended; nil while it has not.
func (s *session) ended() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.why
}

// tell wakes who reads it.
func (s *session) tell() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for r := range s.streams {
		select {
		case r.tokens <- struct{}{}:
		default:
		}
	}
}

// kept waits until the token is written, which is good for one use.
func (s *session) kept() {
	s.keeping.Lock()
	defer s.keeping.Unlock()
}

// join has a stream read it, unless it has ended.
func (s *session) join(r *stream) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.why != nil {
		return false
	}
	s.timer.Stop()
	s.streams[r] = true
	return true
}

// leave ends that.
func (s *session) leave(r *stream) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.streams, r)
	s.rest()
}

// rest lets it end after a while if nobody reads it. s.mu is held.
func (s *session) rest() {
	if len(s.streams) == 0 && s.why == nil {
		s.timer.Reset(linger)
	}
}
