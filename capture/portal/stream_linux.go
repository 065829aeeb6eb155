package portal

import (
	"context"
	"image"
	"sync"
	"time"

	"app.tonedesk/capture"
)

// stream reads a session, or a part of what it shares.
type stream struct {
	session *session
	part    image.Rectangle
	tokens  chan struct{}
	seen    uint64 // the number of the newest picture that was read
	pages   capture.Copied
	closed  bool

	mu    sync.Mutex
	place capture.Place // of the newest picture
}

// Changes implements capture.Notifier.
func (r *stream) Changes() <-chan struct{} { return r.tokens }

// Grab implements capture.Stream. It doesn't wait: before there is a picture nothing is new.
func (r *stream) Grab(ctx context.Context, f *capture.Frame) (changed bool, err error) {
	if r.closed {
		return false, capture.ErrClosed
	}
	if err := ctx.Err(); err != nil {
		return false, err
	}
	r.session.mu.Lock()
	source, at, why := r.session.source, r.session.at, r.session.why
	r.session.mu.Unlock()
	if why != nil {
		return false, why
	}
	if source == nil {
		return false, nil
	}
	p, err := source.Read(r.part, r.seen, r.pages.Room())
	if err != nil {
		if err = inWords(err); r.session.ended() != nil {
			err = r.session.ended()
		}
		return false, err
	}
	if p.Number == 0 {
		return false, nil
	}
	r.seen = p.Number
	r.mu.Lock()
	r.place = capture.PlaceOf(at, p.Source, r.part)
	r.mu.Unlock()
	now := capture.Frame{Pix: p.Pix, Stride: 4 * p.Size.X, Size: p.Size, Layout: capture.BGRX, Origin: r.part.Intersect(image.Rectangle{Max: p.Source}).Min, At: time.Now()}
	return r.pages.Hand(now, f), nil
}

// Place implements capture.Placed.
func (r *stream) Place() capture.Place {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.place
}

// Close implements capture.Stream.
func (r *stream) Close() error {
	if !r.closed {
		r.closed = true
		r.session.leave(r)
	}
	return nil
}
