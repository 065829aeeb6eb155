package widgets

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
)

// besideGap is the room between the picture and the small one beside it.
const besideGap = 2 * Step

// Laid is how a picture and a small one beside it lie in a pane.
type Laid struct {
	Picture Fit
	Small   fyne.Position
	Size    fyne.Size // of the small one; none if there is none
	Over    bool      // there was no room: the small one lies over the picture's corner
}

// LayBeside lays part of a picture into a pane, and a small picture of so many display
// pixels to its right or below it, whichever leaves the picture larger. Where the picture
// would be smaller than the small one, that lies over its corner.
func LayBeside(part image.Rectangle, small image.Point, size fyne.Size, scale float32, flipped bool) Laid {
	whole := Laid{Picture: fitPicture(part, size, scale, flipped)}
	if small == (image.Point{}) || !(scale > 0) {
		return whole
	}
	whole.Size = fyne.NewSize(float32(small.X)/scale, float32(small.Y)/scale)
	right := fitPicture(part, size.SubtractWidthHeight(whole.Size.Width+besideGap, 0), scale, flipped)
	below := fitPicture(part, size.SubtractWidthHeight(0, whole.Size.Height+besideGap), scale, flipped)
	if whole.Size.Height > size.Height {
		right = Fit{}
	}
	if whole.Size.Width > size.Width {
		below = Fit{}
	}
	onRight := right.Size.Width >= below.Size.Width
	best := below
	if onRight {
		best = right
	}
	if max(best.Size.Width, best.Size.Height) < max(whole.Size.Width, whole.Size.Height) {
		whole.Over, whole.Small = true, whole.Picture.Pos
		return whole
	}
	both := Laid{Picture: best, Size: whole.Size}
	if onRight {
		both.Picture.Pos.X = middle(size.Width, best.Size.Width+besideGap+both.Size.Width, scale)
		both.Small = fyne.NewPos(both.Picture.Pos.X+best.Size.Width+besideGap, both.Picture.Pos.Y)
		if best.Size.Height < both.Size.Height {
			both.Small.Y = middle(size.Height, both.Size.Height, scale)
		}
		return both
	}
	both.Picture.Pos.Y = middle(size.Height, best.Size.Height+besideGap+both.Size.Height, scale)
	both.Small = fyne.NewPos(both.Picture.Pos.X, both.Picture.Pos.Y+best.Size.Height+besideGap)
	if best.Size.Width < both.Size.Width {
		both.Small.X = middle(size.Width, both.Size.Width, scale)
	}
	return both
}

// stackedFrom is how much larger two pictures have to be above each other for them to stand
// so, and not side by side; our choice.
const stackedFrom = 1.6

// LayHalves lays part of a picture into the right half of a pane, and another picture of its
// size into the left one; where that leaves little, into the lower and the upper half.
func LayHalves(part image.Rectangle, size fyne.Size, scale float32, flipped bool) Laid {
	right := fitPicture(part, fyne.NewSize((size.Width-besideGap)/2, size.Height), scale, flipped)
	below := fitPicture(part, fyne.NewSize(size.Width, (size.Height-besideGap)/2), scale, flipped)
	if stackedFrom*right.Size.Width >= below.Size.Width {
		l := Laid{Picture: right, Size: right.Size}
		x := middle(size.Width, 2*right.Size.Width+besideGap, scale)
		l.Picture.Pos.X, l.Small = x+right.Size.Width+besideGap, fyne.NewPos(x, right.Pos.Y)
		return l
	}
	l := Laid{Picture: below, Size: below.Size}
	y := middle(size.Height, 2*below.Size.Height+besideGap, scale)
	l.Picture.Pos.Y, l.Small = y+below.Size.Height+besideGap, fyne.NewPos(below.Pos.X, y)
	return l
}

// middle returns where something so long begins in the middle of a room, on a whole display
// pixel.
func middle(room, length, scale float32) float32 {
	return float32(math.Floor(float64((room-length)/2*scale))) / scale
}
