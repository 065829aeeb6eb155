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
		if now.Changed = boxChanged(c.last.Pix, now.Pix, now.Size); now.Changed.Empty() {
			return false
		}
	}
	c.frames[0], c.frames[1] = c.frames[1], c.frames[0]
	c.last, *f = now, now
	return true
}

// boxChanged is the smallest box outside of which two pictures of a size are the same.
func boxChanged(a, b []byte, size image.Point) image.Rectangle {
	row := 4 * size.X
	same := func(y, from, to int) bool { return bytes.Equal(a[y*row:][4*from:4*to], b[y*row:][4*from:4*to]) }
	top, foot := 0, size.Y
	for top < foot && same(top, 0, size.X) {
		top++
	}
	for foot > top && same(foot-1, 0, size.X) {
		foot--
	}
	left, right := size.X, 0
	for y := top; y < foot; y++ { // only where the box may grow
		if !same(y, 0, left) {
			for left--; !same(y, 0, left); left-- {
			}
		}
		if !same(y, right, size.X) {
			for right++; !same(y, right, size.X); right++ {
			}
		}
	}
	return image.Rect(left, top, right, foot)
}
