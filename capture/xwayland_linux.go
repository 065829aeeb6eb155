package capture

import (
	"context"
	"fmt"
	"image"
)

// xwayland is an X server that only serves old programs in a Wayland session. It gives their
// windows, covered or not, and nothing else: neither the screen nor where the pointer is.
type xwayland struct{ x11 *x11Backend }

// Open implements Backend: the error wraps ErrWayland.
func (b xwayland) Open(ctx context.Context, region image.Rectangle) (Stream, error) {
	return b.x11.Open(ctx, region)
}

// Close implements Backend.
func (b xwayland) Close() error { return b.x11.Close() }

// Windows implements Follower.
func (b xwayland) Windows(ctx context.Context, own ...uint64) ([]Window, error) {
	return b.x11.Windows(ctx, own...)
}

// WindowAt implements Follower: the error wraps ErrWayland, since what lies over a window may be
// none of this server's.
func (b xwayland) WindowAt(context.Context, image.Point, ...uint64) (Window, bool, error) {
	return Window{}, false, fmt.Errorf("window at a place of the screen: %w", ErrWayland)
}

// Follow implements Follower.
func (b xwayland) Follow(ctx context.Context, w Window, part image.Rectangle, own ...uint64) (WindowStream, error) {
	return b.x11.Follow(ctx, w, part, own...)
}

// Pointer implements Looker: the error wraps ErrWayland.
func (b xwayland) Pointer(context.Context) (image.Point, error) {
	return image.Point{}, fmt.Errorf("look for the pointer: %w", ErrWayland)
}

// ReadSquare implements Looker: the error wraps ErrWayland.
func (b xwayland) ReadSquare(context.Context, image.Point, int) (Frame, error) {
	return Frame{}, fmt.Errorf("read a square of the screen: %w", ErrWayland)
}

// InWaylandSession reports whether a backend is one for a Wayland session's old programs alone.
func InWaylandSession(b Backend) bool {
	_, is := b.(xwayland)
	return is
}
