package capture

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"runtime"
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
type portableBackend struct{}

// openPortable checks that there is a monitor to read. Errors wrap ErrUnsupported,
// ErrNoDisplay or ErrNotAnswering.
func openPortable(ctx context.Context) (Backend, error) {
	if _, err := portableDesktop(ctx); err != nil {
		return nil, fmt.Errorf("open portable: %w", err)
	}
	return portableBackend{}, nil
}

// portableDesktop returns the smallest rectangle around all monitors. The top left of the
// primary one is 0, 0.
func portableDesktop(ctx context.Context) (image.Rectangle, error) {
	return onPortable(ctx, func() (desktop image.Rectangle, err error) {
		for i := range screenshot.NumActiveDisplays() {
			desktop = desktop.Union(screenshot.GetDisplayBounds(i))
		}
		if !desktop.Empty() {
			return desktop, nil
		}
		if _, err := screenshot.Capture(0, 0, 1, 1); errors.Is(err, screenshot.ErrUnsupported) {
			return desktop, fmt.Errorf("list monitors: %w", ErrUnsupported)
		}
		return desktop, fmt.Errorf("list monitors: none is on: %w", ErrNoDisplay)
	})
}

// Open implements Backend.
func (portableBackend) Open(ctx context.Context, region image.Rectangle) (Stream, error) {
	desktop, err := portableDesktop(ctx)
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
	return &portableStream{wanted: region, region: met, looked: time.Now()}, nil
}

// Close implements Backend. There is nothing to close.
func (portableBackend) Close() error { return nil }

// Pointer implements Looker.
func (portableBackend) Pointer(context.Context) (image.Point, error) { return pointerAt() }

// ReadSquare implements Looker.
func (portableBackend) ReadSquare(ctx context.Context, around image.Point, side int) (Frame, error) {
	desktop, err := portableDesktop(ctx)
	if err != nil {
		return Frame{}, err
	}
	square, err := clip(squareAround(around, side), desktop)
	if err != nil {
		return Frame{}, err
	}
	img, err := onPortable(ctx, func() (*image.RGBA, error) { return screenshot.CaptureRect(square) })
	if err != nil {
		return Frame{}, fmt.Errorf("read the square %v: %w", square, err)
	}
	return Frame{Pix: img.Pix, Stride: img.Stride, Size: img.Rect.Size(), Layout: RGBA, Origin: square.Min, At: time.Now(), Lasts: true}, nil
}

// portableStream reads one region. Every changed frame has memory of its own.
type portableStream struct {
	wanted image.Rectangle
	region image.Rectangle // the part of it that is on the desktop
	looked time.Time       // when that was found
	last   *image.RGBA
}

// Grab implements Stream. It looks now and then where the region is on the desktop, which
// may have changed: the module gives black, without an error, for what lies outside.
func (s *portableStream) Grab(ctx context.Context, f *Frame) (changed bool, err error) {
	if time.Since(s.looked) >= portableLook {
		desktop, err := portableDesktop(ctx)
		if err != nil {
			return false, err
		}
		met := s.wanted.Intersect(desktop)
		if met.Empty() {
			return false, fmt.Errorf("region %v on desktop %v: %w", s.wanted, desktop, ErrGone)
		}
		s.region, s.looked = met, time.Now()
	}
	region := s.region
	img, err := onPortable(ctx, func() (*image.RGBA, error) { return screenshot.CaptureRect(region) })
	if err != nil {
		return false, fmt.Errorf("read screen %v: %w", region, err)
	}
	if s.last != nil && s.last.Rect == img.Rect && bytes.Equal(s.last.Pix, img.Pix) {
		return false, nil
	}
	s.last = img
	*f = Frame{Pix: img.Pix, Stride: img.Stride, Size: img.Rect.Size(), Layout: RGBA, Origin: region.Min, At: time.Now()}
	return true, nil
}

// Close implements Stream.
func (s *portableStream) Close() error {
	s.last = nil
	return nil
}

// portableTurn is held by the call to the module that runs: calls must not run side by
// side in the whole program.
var portableTurn sync.Mutex

// onPortable runs f, which calls the module, when no other such call runs, and waits for
// it until ctx ends; the error then wraps ErrNotAnswering and ctx's. Whoever no longer
// waits leaves the call running. A panic of f's becomes an error.
func onPortable[T any](ctx context.Context, f func() (T, error)) (T, error) {
	type result struct {
		value T
		err   error
	}
	done := make(chan result, 1)
	go func() {
		portableTurn.Lock()
		defer portableTurn.Unlock()
		runtime.LockOSThread() // as Windows wants its drawing handles used
		defer runtime.UnlockOSThread()
		var r result
		defer func() {
			if p := recover(); p != nil {
				r.err = fmt.Errorf("%w: %v", errPanic, p)
			}
			done <- r
		}()
		if ctx.Err() == nil { // else nobody waits any more
			r.value, r.err = f()
		}
	}()
	select {
	case r := <-done:
		if ctx.Err() == nil {
			return r.value, r.err
		}
	case <-ctx.Done():
	}
	var none T
	return none, fmt.Errorf("%w: %w", ErrNotAnswering, context.Cause(ctx))
}
