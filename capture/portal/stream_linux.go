package portal

import (
	"bytes"
	"context"
	"image"
	"time"

	"app.tonedesk/capture"
)

// stream reads a session, or a part of what it shares.
type stream struct {
	session *session
	part    image.Rectangle
	tokens  chan struct{}
	seen    uint64        // the number of the newest picture that was read
	frames  [2][]byte     // the one that was handed out last, and the one to fill
	last    capture.Frame // that was handed out last
	closed  bool
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
	source, why := r.session.source, r.session.why
	r.session.mu.Unlock()
	if why != nil {
		return false, why
	}
	if source == nil {
		return false, nil
	}
	p, err := source.Read(r.part, r.seen, r.frames[1])
	if err != nil {
		if err = inWords(err); r.session.ended() != nil {
			err = r.session.ended()
		}
		return false, err
	}
	if p.Number == 0 {
		return false, nil
	}
	r.seen, r.frames[1] = p.Number, p.Pix
	now := capture.Frame{Pix: p.Pix, Stride: 4 * p.Size.X, Size: p.Size, Layout: capture.BGRX, Origin: r.part.Intersect(image.Rectangle{Max: p.Source}).Min, At: time.Now()}
	if r.last.Size == now.Size {
		if now.Changed = rowsChanged(r.last.Pix, now.Pix, now.Size); now.Changed.Empty() {
			return false, nil
		}
	}
	r.frames[0], r.frames[1] = r.frames[1], r.frames[0]
	r.last, *f = now, now
	return true, nil
}

// rowsChanged is the smallest box of whole rows outside of which two pictures of a size are the same.
func rowsChanged(a, b []byte, size image.Point) image.Rectangle {
	row := 4 * size.X
	same := func(y int) bool { return bytes.Equal(a[y*row:][:row], b[y*row:][:row]) }
	top, foot := 0, size.Y
	for top < foot && same(top) {
		top++
	}
	for foot > top && same(foot-1) {
		foot--
	}
	return image.Rect(0, top, size.X, foot)
}

// Close implements capture.Stream.
func (r *stream) Close() error {
	if !r.closed {
		r.closed = true
		r.session.leave(r)
	}
	return nil
}
