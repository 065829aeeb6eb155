package capture

import (
	"bytes"
	"image"
)

// Copied keeps the promise of Frame for a stream that copies its pictures: of two buffers it fills the one
// that was not handed out last. The zero value is ready. One goroutine at a time uses it.
type Copied struct {
	frames [2][]byte // the one that was handed out last, and the one to fill
	last   Frame     // that was handed out last
}

// Room returns memory that may be written to until the next Hand; it may be nil.
func (c *Copied) Room() []byte { return c.frames[1] }

// Hand hands out a picture, whose rows follow each other without a gap, in memory that Room gave or that
// is new. It reports whether it differs from the one before; where it doesn't, f is untouched. f.Changed
// is said by it.
func (c *Copied) Hand(now Frame, f *Frame) (changed bool) {
	c.frames[1] = now.Pix
	if c.last.Size == now.Size {
		if now.Changed = rowsChanged(c.last.Pix, now.Pix, now.Size); now.Changed.Empty() {
			return false
		}
	}
	c.frames[0], c.frames[1] = c.frames[1], c.frames[0]
	c.last, *f = now, now
	return true
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
