package capture

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"runtime"
	"strconv"
	"sync"
	"time"

	"github.com/kbinani/screenshot"
)

// portableLook is the least time between two looks at where the monitors are. Our
// choice.
const portableLook = 2 * time.Second

// portableBackend reads the screen through the screenshot module, which knows several
// systems and keeps nothing from call to call. It is the way in on Windows and macOS.
// On X servers Pick never takes it: see pick_linux.go.
//
// The module's calls have no time limit and must not run side by side, so that all of
// them, in the whole program, run on one goroutine; whoever no longer waits leaves
// the call running, and the next one waits until it is over.
type portableBackend struct{}

// openPortable checks that there is a monitor to read. Errors wrap ErrUnsupported,
// ErrNoDisplay or ErrNotAnswering.
func openPortable(ctx context.Context) (Backend, error) {
	var b portableBackend
	if _, err := b.Monitors(ctx); err != nil {
		return nil, fmt.Errorf("open portable: %w", err)
	}
	return b, nil
}

// Name implements Backend.
func (portableBackend) Name() string { return "portable" }

// Desktop implements Backend: the smallest rectangle around all monitors.
func (b portableBackend) Desktop(ctx context.Context) (image.Rectangle, error) {
	monitors, err := b.Monitors(ctx)
	return around(monitors), err
}

// Monitors implements Backend. The first is the primary one; its top left is 0, 0.
func (portableBackend) Monitors(ctx context.Context) ([]Monitor, error) {
	return onPortable(ctx, func() ([]Monitor, error) {
		var monitors []Monitor
		for i := range screenshot.NumActiveDisplays() {
			if r := screenshot.GetDisplayBounds(i); !r.Empty() {
				monitors = append(monitors, Monitor{Name: "display " + strconv.Itoa(i+1), Bounds: r, Primary: i == 0})
			}
		}
		if len(monitors) == 0 {
			if _, err := screenshot.Capture(0, 0, 1, 1); errors.Is(err, screenshot.ErrUnsupported) {
				return nil, fmt.Errorf("list monitors: %w", ErrUnsupported)
			}
			return nil, fmt.Errorf("list monitors: none is on: %w", ErrNoDisplay)
		}
		return monitors, nil
	})
}

// Open implements Backend.
func (b portableBackend) Open(ctx context.Context, region image.Rectangle) (Stream, error) {
	desktop, err := b.Desktop(ctx)
	if err != nil {
		return nil, err
	}
	met, err := clip(region, desktop)
	if err != nil {
		return nil, err
	}
	if region == (image.Rectangle{}) {
		region = image.Rect(-1<<30, -1<<30, 1<<30, 1<<30) // whatever the desktop grows to
	}
	return &portableStream{backend: b, wanted: region, region: met, looked: time.Now()}, nil
}

// Close implements Backend. There is nothing to close.
func (portableBackend) Close() error { return nil }

// portableStream reads one region. Every changed frame has memory of its own.
type portableStream struct {
	backend portableBackend
	wanted  image.Rectangle
	region  image.Rectangle // the part of it that is on the desktop
	looked  time.Time       // when that was found
	last    *image.RGBA
	seq     uint64
	closed  bool
}

// Grab implements Stream.
func (s *portableStream) Grab(ctx context.Context, f *Frame) (changed bool, err error) {
	if s.closed {
		return false, fmt.Errorf("read screen: %w", ErrClosed)
	}
	if time.Since(s.looked) >= portableLook {
		if err := s.look(ctx); err != nil {
			return false, err
		}
	}
	region := s.region
	img, err := onPortable(ctx, func() (*image.RGBA, error) { return screenshot.CaptureRect(region) })
	switch {
	case errors.Is(err, screenshot.ErrUnsupported):
		return false, fmt.Errorf("read screen %v: %w", region, ErrUnsupported)
	case err != nil:
		return false, fmt.Errorf("read screen %v: %w", region, err)
	case img.Rect.Size() != region.Size():
		return false, fmt.Errorf("read screen %v: got %v", region, img.Rect)
	}
	if s.last != nil && s.last.Rect == img.Rect && bytes.Equal(s.last.Pix, img.Pix) {
		return false, nil
	}
	s.last = img
	s.seq++
	*f = Frame{Pix: img.Pix, Stride: img.Stride, Size: region.Size(), Layout: RGBA,
		Origin: region.Min, Seq: s.seq, At: time.Now()}
	return true, nil
}

// look finds where the region is on the desktop, which may have changed: the module
// gives black, without an error, for what lies outside.
func (s *portableStream) look(ctx context.Context) error {
	desktop, err := s.backend.Desktop(ctx)
	if err != nil {
		return err
	}
	met := s.wanted.Intersect(desktop)
	if met.Empty() {
		return fmt.Errorf("region %v on desktop %v: %w", s.wanted, desktop, ErrGone)
	}
	s.region, s.looked = met, time.Now()
	return nil
}

// Region implements Stream.
func (s *portableStream) Region() image.Rectangle { return s.region }

// Close implements Stream.
func (s *portableStream) Close() error {
	s.closed, s.last = true, nil
	return nil
}

// around returns the smallest rectangle around monitors.
func around(monitors []Monitor) image.Rectangle {
	var r image.Rectangle
	for _, m := range monitors {
		r = r.Union(m.Bounds)
	}
	return r
}

// portableCalls takes calls to the goroutine that makes them, one after the other, on
// one thread of the system, as Windows wants its drawing handles used.
var portableCalls = sync.OnceValue(func() chan<- func() {
	calls := make(chan func())
	go func() {
		runtime.LockOSThread()
		for call := range calls {
			call()
		}
	}()
	return calls
})

// onPortable runs f on that goroutine and waits for it until ctx ends; the error then
// wraps ErrNotAnswering and ctx's. A panic of f's becomes an error.
func onPortable[T any](ctx context.Context, f func() (T, error)) (T, error) {
	type result struct {
		value T
		err   error
	}
	done := make(chan result, 1)
	call := func() {
		var r result
		defer func() {
			if p := recover(); p != nil {
				r.err = fmt.Errorf("%w: %v", errPanic, p)
			}
			done <- r
		}()
		r.value, r.err = f()
	}
	var none T
	late := func() error { return fmt.Errorf("%w: %w", ErrNotAnswering, context.Cause(ctx)) }
	if ctx.Err() != nil {
		return none, late()
	}
	select {
	case portableCalls() <- call:
	case <-ctx.Done():
		return none, late()
	}
	select {
	case r := <-done:
		return r.value, r.err
	case <-ctx.Done():
		return none, late()
	}
}
