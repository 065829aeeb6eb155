package widgets

import (
	"image"

	"fyne.io/fyne/v2"
)

// sight is all that changes the whole of the mirror at once.
type sight struct {
	picture  *image.RGBA
	bounds   image.Rectangle // of the picture, in source pixels
	part     image.Rectangle // of it that is shown
	flipped  bool
	small    *image.RGBA           // the whole picture made small, shown beside; nil: none
	halves   bool                  // the picture has one half of the room only
	before   *image.RGBA           // a picture from before, in the other half; nil: none
	overlays [overlays]*image.RGBA // drawn over the picture; nil: nothing
}

// Other returns the picture that stands beside: the whole one made small or, in halves, the
// one from before; nil for none.
func (s *sight) Other() *image.RGBA {
	if s.halves {
		return s.before
	}
	return s.small
}

// arrange keeps the part of the picture that is shown whole in a mirror of a size.
func (s *sight) arrange(size fyne.Size, scale float32) Arrangement {
	var small image.Point
	if s.small != nil {
		small = s.small.Rect.Size()
	}
	a := ArrangeBeside(s.part, small, size, scale, s.flipped)
	if s.halves {
		a = ArrangeHalves(s.part, size, scale, s.flipped)
	}
	return a
}
