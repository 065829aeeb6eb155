package capture

import (
	"context"
	"fmt"
	"image"
)

// Sharer is a Backend in whose session programs can't read the screen by themselves: the desktop
// asks the painter, in a dialog of its own, which screen or window to share.
type Sharer interface {
	Backend
	// Ask has the desktop ask, and returns the number of what is shared from then on. own is our
	// own window's number, by which the dialog knows what it belongs to; 0 for none. What was shared
	// before ends. The error wraps ErrGivenUp where the painter said no or ctx ended, ErrUnanswered,
	// ErrNoPortal, ErrNoLibrary, ErrNotAnswering, or ErrSharing. Where the desktop can't ask, and
	// shares its screens with every program, one that is alone is shared at once; the error is a
	// *Several where there are more.
	Ask(ctx context.Context, own uint64) (number uint64, err error)
	// Share begins to read what is shared under a number, or part of it: a rectangle from its top
	// left, read where it meets the picture; the zero rectangle is all. What has ended is begun anew
	// if the desktop allowed that; else the error wraps ErrNotShared, and ErrEmpty for a part of no
	// size. A picture may come late, since an unchanged screen need not be sent: until then Grab
	// finds nothing new. Where sharing ends Grab gives ErrStopped from then on.
	Share(ctx context.Context, number uint64, part image.Rectangle) (Stream, error)
}

// Placed is a Stream that may know where on the desktop lies what it reads.
type Placed interface {
	Stream
	// Place returns where that lies, once a picture was read; the zero Place where the desktop doesn't
	// say, as of windows. It is called by who calls Grab, or by another goroutine.
	Place() Place
}

// Place is part of a screen, or of several, in the desktop's own measure, which need not be that of
// the pixels.
type Place struct {
	Whole image.Rectangle // all that is shared
	Part  image.Rectangle // of it, what is read
	size  image.Point     // of all that is shared, pixels
}

// Pixels returns where a rectangle of the desktop lies in the picture of all that is shared, in its
// pixels; empty where that is nowhere.
func (p Place) Pixels(r image.Rectangle) image.Rectangle {
	r = r.Intersect(p.Whole)
	if r.Empty() {
		return image.Rectangle{}
	}
	r = r.Sub(p.Whole.Min)
	wide, high := p.Whole.Dx(), p.Whole.Dy()
	return image.Rect(r.Min.X*p.size.X/wide, r.Min.Y*p.size.Y/high, (r.Max.X*p.size.X+wide-1)/wide, (r.Max.Y*p.size.Y+high-1)/high)
}

// PlaceOf returns the place of a part of a picture of size pixels that lies at whole. The zero
// rectangle is all of the picture.
func PlaceOf(whole image.Rectangle, size image.Point, part image.Rectangle) Place {
	all := image.Rectangle{Max: size}
	if part == (image.Rectangle{}) {
		part = all
	}
	part = part.Intersect(all)
	if whole.Empty() || part.Empty() {
		return Place{}
	}
	across := func(x int) int { return whole.Min.X + x*whole.Dx()/size.X }
	down := func(y int) int { return whole.Min.Y + y*whole.Dy()/size.Y }
	box := image.Rect(across(part.Min.X), down(part.Min.Y), max(across(part.Max.X), across(part.Min.X)+1), max(down(part.Max.Y), down(part.Min.Y)+1))
	return Place{whole, box, size}
}

// Screen is one that a desktop shares with every program.
type Screen struct {
	Number uint64      // under which it is shared
	Name   string      // as the desktop calls it
	Size   image.Point // pixels
}

// Several says that the painter is to choose one of several screens. It is an error.
type Several struct{ Screens []Screen } // from left to right

func (s *Several) Error() string {
	return fmt.Sprintf("one of %d screens is to be chosen", len(s.Screens))
}
