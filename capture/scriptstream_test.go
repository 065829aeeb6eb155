package capture

import (
	"context"
	"image"
	"sync/atomic"
	"time"
)

// scriptStream plays a Script. It keeps to the least that Stream promises: after a
// change, the buffer of the frame before the last is spoilt at the next Grab.
type scriptStream struct {
	script *Script
	region image.Rectangle
	busy   atomic.Bool
	closed bool
	seq    uint64
	bufs   [2][]byte
}

// Grab implements Stream.
func (t *scriptStream) Grab(ctx context.Context, f *Frame) (changed bool, err error) {
	s := t.script
	if !t.busy.CompareAndSwap(false, true) {
		s.fault("two calls to a stream at once")
		return false, ErrClosed
	}
	defer t.busy.Store(false)
	if t.closed {
		s.fault("Grab after Close")
		return false, ErrClosed
	}
	buf := &t.bufs[t.seq%2]
	clear(*buf) // whoever still reads the frame before the last sees it go
	step, release := t.next()
	if step.After > 0 {
		time.Sleep(step.After)
	}
	if step.Hang {
		<-release
		s.mu.Lock()
		s.hanging--
		s.mu.Unlock()
	}
	if step.Panic != nil {
		panic(step.Panic)
	}
	if step.Err != nil {
		return false, step.Err
	}
	img := t.picture(step)
	if img == nil {
		return false, nil
	}
	t.seq++
	*buf = append((*buf)[:0], img.Pix...)
	*f = Frame{Pix: *buf, Stride: img.Stride, Size: img.Rect.Size(), Layout: RGBA,
		Origin: t.region.Min, At: time.Now()}
	return true, nil
}

// next takes the next step off the list.
func (t *scriptStream) next() (Step, chan struct{}) {
	s := t.script
	s.mu.Lock()
	defer s.mu.Unlock()
	s.grabs++
	if len(s.steps) == 0 {
		return Step{}, nil
	}
	step := s.steps[0]
	s.steps = s.steps[1:]
	if step.Hang {
		s.hanging++
	}
	return step, s.release
}

// picture returns what to show: the step's picture, or on a new stream the last one.
func (t *scriptStream) picture(step Step) *image.NRGBA {
	s := t.script
	s.mu.Lock()
	defer s.mu.Unlock()
	if step.Picture != nil {
		s.last = step.Picture
		return step.Picture
	}
	if t.seq == 0 {
		return s.last
	}
	return nil
}

// Close implements Stream.
func (t *scriptStream) Close() error {
	s := t.script
	if !t.busy.CompareAndSwap(false, true) {
		s.fault("Close while a Grab is running")
		return nil
	}
	defer t.busy.Store(false)
	if t.closed {
		return nil
	}
	t.closed = true
	clear(t.bufs[0])
	clear(t.bufs[1])
	s.mu.Lock()
	defer s.mu.Unlock()
	s.closed++
	return nil
}
