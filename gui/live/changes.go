package live

import (
	"image"

	"app.tonedesk/capture"
	"app.tonedesk/gui/setup"
)

// changes adds up where what is watched differs at most from what was last worked on to the end:
// a frame says only where it differs from the one before, and that may have been held back, or
// its work broken down. The zero value: everything may.
type changes struct {
	known  bool            // else everything may differ
	box    image.Rectangle // in pixels of the source
	bounds image.Rectangle // of what is watched
	feed   setup.Source
}

// add adds a frame.
func (c *changes) add(f *capture.Frame, repeated bool) {
	if repeated {
		return
	}
	if c.known = c.known && !f.Changed.Empty(); c.known {
		c.box = c.box.Union(f.Changed.Add(f.Origin))
	}
}

// take returns where what is watched in bounds of a source, whose pixels are worked on now, differs,
// in its own pixels. Until that is done, everything does.
func (c *changes) take(bounds image.Rectangle, feed setup.Source) image.Rectangle {
	known := c.known && c.bounds == bounds && c.feed == feed
	c.known, c.bounds, c.feed = false, bounds, feed
	if !known {
		return image.Rectangle{Max: bounds.Size()}
	}
	return c.box.Intersect(bounds).Sub(bounds.Min)
}

// done notes that all of it was worked on.
func (c *changes) done() { c.known, c.box = true, image.Rectangle{} }
