package pointer

import (
	"image"
	"slices"
)

// gap is how far the chip stays from the pixel under the pointer, in pixels at scale 1: beside the
// pointer's own picture, which is up to 32 pixels large as common desktops draw it (our choice).
const gap = 28

// lie is where a chip of a size lies that belongs to a pixel: wholly on its screen, and away from it by
// the gap along at least one side. It keeps off what is to be avoided where it can. ok is false where
// the screen has no room.
func lie(at, size image.Point, away int, screen image.Rectangle, avoid []image.Rectangle) (best image.Rectangle, ok bool) {
	right, below := at.X+away, at.Y+away
	left, above := at.X-away-size.X+1, at.Y-away-size.Y+1
	beside := max(min(at.Y-size.Y/2, screen.Max.Y-size.Y), screen.Min.Y)
	centred := max(min(at.X-size.X/2, screen.Max.X-size.X), screen.Min.X)
	for _, corner := range []image.Point{
		{right, below}, {left, below}, {right, above}, {left, above}, // first, as a pointer is drawn
		{centred, below}, {centred, above}, {right, beside}, {left, beside},
	} {
		box := image.Rectangle{Min: corner, Max: corner.Add(size)}
		if !box.In(screen) {
			continue
		}
		if !slices.ContainsFunc(avoid, box.Overlaps) {
			return box, true
		}
		if !ok {
			best, ok = box, true
		}
	}
	return best, ok
}

// screenAt is the screen that a pixel lies on; none is the zero rectangle.
func screenAt(at image.Point, screens []image.Rectangle) image.Rectangle {
	for _, s := range screens {
		if at.In(s) {
			return s
		}
	}
	return image.Rectangle{}
}
