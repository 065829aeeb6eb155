package wayland

import (
	"context"
	"fmt"
	"image"
	"time"

	"app.tonedesk/capture"
)

// way is a protocol by which a compositor copies a screen. Used while the display's mu is held.
type way interface {
	// next asks for the next picture, which comes when something has changed; the first comes at once. It
	// ends in the stream's came, failed or refuse.
	next()
}

// Stream reads a screen. It is a capture.Stream and a capture.Notifier.
type Stream struct {
	*session
	part   image.Rectangle
	tokens chan struct{}
	pages  capture.Copied
	closed bool

	// What follows is guarded by the display's mu.
	output *output
	way    way
	memory memory
	full   bool   // a picture has come
	shot   turned // how it lies in memory
	idle   bool   // none was asked for since
	failed int    // how often in succession
	bad    error  // why there is none
}

// failMost is how often copying may fail in succession, as it does for a moment where the size changes. Our choice.
const failMost = 3

// newStream begins to read the screen of a name.
func newStream(s *session, name string, part image.Rectangle) (*Stream, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	r := &Stream{session: s, part: part, tokens: make(chan struct{}, 1)}
	for _, o := range s.sorted() {
		if o.Name == name {
			r.output = o
			break
		}
	}
	if r.output == nil {
		return nil, capture.ErrGone
	}
	s.told = r.tell
	s.gone = func(number uint32) {
		if s.outputs[number] == r.output {
			s.end(fmt.Errorf("screen %q: %w", name, capture.ErrGone))
		}
	}
	if s.source != 0 {
		r.way = newImageCopy(r)
	} else {
		r.way = &screencopy{stream: r}
		r.way.next()
	}
	return r, s.why
}

// tell says that there may be something new.
func (r *Stream) tell() {
	select {
	case r.tokens <- struct{}{}:
	default:
	}
}

// came notes that a picture lies in memory. A compositor may say so of one that it was never asked for.
func (r *Stream) came(shot turned) {
	if !r.memory.holds(shot.layout) {
		r.fail()
		return
	}
	r.full, r.shot, r.idle, r.failed, r.bad = true, shot, true, 0, nil
	r.tell()
}

// fail notes that the compositor could not copy a picture, and asks again, a few times.
func (r *Stream) fail() {
	if r.failed++; r.failed < failMost {
		r.way.next()
		return
	}
	r.refuse(fmt.Errorf("%w: the compositor copies no picture", capture.ErrSharing))
}

// refuse notes that there can't be a picture as things are. It is asked for again at the next Grab.
func (r *Stream) refuse(why error) {
	r.idle, r.bad = true, why
	r.tell()
}

// Changes implements capture.Notifier.
func (r *Stream) Changes() <-chan struct{} { return r.tokens }

// Grab implements capture.Stream. It doesn't wait: before there is a picture nothing is new.
func (r *Stream) Grab(ctx context.Context, f *capture.Frame) (changed bool, err error) {
	if r.closed {
		return false, capture.ErrClosed
	}
	if err := ctx.Err(); err != nil {
		return false, err
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.why != nil {
		return false, r.why
	}
	full := r.full && r.memory.holds(r.shot.layout) // else it has gone since
	r.full = false
	if full {
		pix, where, err := r.shot.read(r.memory.bytes, r.part, r.pages.Room())
		if r.bad = err; err == nil {
			changed = r.pages.Hand(capture.Frame{Pix: pix, Stride: 4 * where.Dx(), Size: where.Size(), Layout: capture.BGRX, Origin: where.Min, At: time.Now()}, f)
		}
	}
	bad := r.bad
	if r.idle {
		r.idle = false
		r.way.next()
	}
	return changed, bad
}

// Place implements capture.Placed.
func (r *Stream) Place() capture.Place {
	r.mu.Lock()
	defer r.mu.Unlock()
	o := r.output
	whole := image.Rectangle{Min: o.at, Max: o.at.Add(o.wide)}
	if o.wide.X < 1 || o.wide.Y < 1 || o.wide.X > mostSide || o.wide.Y > mostSide {
		whole = image.Rectangle{}
	}
	return capture.PlaceOf(whole, r.shot.Size(), r.part)
}

// Close implements capture.Stream.
func (r *Stream) Close() error {
	if !r.closed {
		r.closed = true
		r.close()
		r.mu.Lock()
		defer r.mu.Unlock()
		r.memory.free()
	}
	return nil
}
