package capture

import (
	"context"
	"fmt"
	"image"
	"time"
)

// Layout says how the four bytes of a pixel are to be read.
type Layout uint8

const (
	// RGBA is red, green, blue, alpha; alpha is straight (not multiplied in).
	RGBA Layout = iota
	// BGRX is blue, green, red and a byte without meaning: never read or hash it.
	BGRX
)

// Frame is one picture of a stream: Size.Y rows of Size.X pixels of four bytes,
// each row beginning Stride bytes after the one before.
//
// Pix belongs to the stream that filled it. It stays valid, and nobody writes to
// it, until a Grab begins after a newer frame was handed out, or Close is called on
// that stream. So a frame can be read while the next Grab runs, or hangs, whatever
// comes of it; an error, or nothing new, takes nothing away. Streams keep that
// promise with two buffers: a Grab fills the one that was not handed out last.
type Frame struct {
	Pix    []byte
	Rest   []byte      // of 16 bits a channel: signed bytes that lie as Pix does; the 16 bits are 257 times Pix plus Rest. nil: 8
	Stride int         // bytes from row to row, at least 4 * Size.X
	Size   image.Point // pixels
	Layout Layout
	Origin image.Point // top left of the picture, in desktop pixels; zero for a file
	At     time.Time   // when the pixels were read
	Lasts  bool        // nobody will ever write to Pix: whoever wants them longer needs no copy

	// Space says which colours the numbers stand for, in the words of whoever opened the source; it
	// is only handed on here. nil: sRGB.
	Space any

	// Changed holds all that differs from the frame that the stream handed out before, in
	// the picture's own pixels. The zero rectangle: anything may.
	Changed image.Rectangle
}

// Backend is a way into one system's screen. It may be used from several goroutines.
type Backend interface {
	// Open begins to read region, in desktop pixels, or the whole desktop if region
	// is the zero rectangle. A region of zero size that is not the zero rectangle
	// gives ErrEmpty, one that meets no part of the desktop ErrOutside. A region
	// that is partly outside is read where it meets the desktop. Open may wait for the
	// system; where the context ends first it returns with the context's error, as soon
	// as the system allows.
	Open(ctx context.Context, region image.Rectangle) (Stream, error)
	// Close ends the connection: streams give ErrClosed from then on, and are still to be
	// closed. Closing twice is no error.
	Close() error
}

// Stream reads one region again and again. Its methods are called by one
// goroutine at a time; nobody calls Grab or Close while a Grab is running.
type Stream interface {
	// Grab puts the newest picture into f. changed is false, and f untouched, when
	// nothing is new since the Grab before; the first Grab is always a change.
	// On an error f is untouched too. See Frame for how long f.Pix is valid.
	Grab(ctx context.Context, f *Frame) (changed bool, err error)
	// Close lets go of what the stream holds. Closing twice is no error.
	Close() error
}

// Notifier is a stream that can tell when there may be something new. Changes gives a token
// then; without one Grab has nothing to find, but for a change that the system forgot to tell
// of. A token may come without a change, and one stands for any number of changes: take it
// first, then grab. The channel is never closed; nil where nothing is
// told after all, so that Grab is to be called again and again.
type Notifier interface {
	Changes() <-chan struct{}
}

// clip returns the part of region that lies on the desktop, or the whole desktop if
// region is the zero rectangle. The error wraps ErrEmpty or ErrOutside.
func clip(region, desktop image.Rectangle) (image.Rectangle, error) {
	if region == (image.Rectangle{}) {
		region = desktop
	}
	if region.Empty() {
		return image.Rectangle{}, fmt.Errorf("region %v: %w", region, ErrEmpty)
	}
	met := region.Intersect(desktop)
	if met.Empty() {
		return image.Rectangle{}, fmt.Errorf("region %v on desktop %v: %w", region, desktop, ErrOutside)
	}
	return met, nil
}
