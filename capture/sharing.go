package capture

import (
	"context"
	"image"
)

// Sharer is a Backend in whose session programs can't read the screen by themselves: the desktop
// asks the painter, in a dialog of its own, which screen or window to share.
type Sharer interface {
	Backend
	// Ask has the desktop ask, and returns the number of what is shared from then on. own is our
	// own window's number, by which the dialog knows what it belongs to; 0 for none. What was shared
	// before ends. The error wraps ErrGivenUp where the painter said no or ctx ended, ErrUnanswered,
	// ErrNoPortal, ErrNoLibrary, ErrNotAnswering, or ErrSharing.
	Ask(ctx context.Context, own uint64) (number uint64, err error)
	// Share begins to read what is shared under a number, or part of it: a rectangle from its top
	// left, read where it meets the picture; the zero rectangle is all. What has ended is begun anew
	// if the desktop allowed that; else the error wraps ErrNotShared, and ErrEmpty for a part of no
	// size. A picture may come late, since an unchanged screen need not be sent: until then Grab
	// finds nothing new. Where sharing ends Grab gives ErrStopped from then on.
	Share(ctx context.Context, number uint64, part image.Rectangle) (Stream, error)
}
