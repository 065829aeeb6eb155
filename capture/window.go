package capture

import (
	"context"
	"image"
)

// Window describes a window of another program.
type Window struct {
	ID        uint64          // the display's number of it; means nothing once the window is closed
	Title     string          // one line of valid text, as its program gives it
	Class     string          // what program it is of; stays the same from start to start
	Rect      image.Rectangle // its inside without the frame, desktop pixels
	Minimised bool            // or on another workspace: its program paints nothing
}

// Follower is a Backend that can read a window wherever it lies. Windows of this process, and
// those that own names (by the numbers that the window's toolkit gives), are never found: the
// process's number alone doesn't tell in a sandbox.
type Follower interface {
	Backend
	// Windows returns the windows that can be followed, the topmost first.
	Windows(ctx context.Context, own ...uint64) ([]Window, error)
	// WindowAt returns the window that shows at p, a place in desktop pixels: p may lie on
	// its frame, and under one of our own windows. found is false where another thing lies on
	// top, such as a panel, or nothing does.
	WindowAt(ctx context.Context, p image.Point, own ...uint64) (w Window, found bool, err error)
	// Follow begins to read a window's inside, or part of it: a rectangle from the inside's
	// top left, read where it meets the inside; the zero rectangle is all. The window is w.ID
	// if that is of w's class, else the one of w's title and class. It need not be there yet.
	// The error wraps ErrEmpty for a part of no size, ErrUnsupported where the display can't.
	Follow(ctx context.Context, w Window, part image.Rectangle, own ...uint64) (WindowStream, error)
}

// WindowStream reads a window, also while it is covered or reaches off the screen. While there
// is nothing to read Grab gives errors that wrap ErrMinimised, ErrNoWindow (closed), ErrPart
// (the window has become too small for it) or ErrFormat (of a depth that we can't read);
// it goes on by itself when that ends, also with another window of the same title and class.
type WindowStream interface {
	Stream
	Notifier
	// Window describes the window as it was when Grab last saw it. It may be called while a
	// Grab runs.
	Window() Window
}
