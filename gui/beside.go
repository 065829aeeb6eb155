package gui

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
)

// besideGap is the room between the picture and the small one beside it.
const besideGap = 2 * Step

// laid is how a picture and a small one beside it lie in a pane.
type laid struct {
	picture fit
	small   fyne.Position
	size    fyne.Size // of the small one; none if there is none
	over    bool      // there was no room: the small one lies over the picture's corner
}

// layBeside lays part of a picture into a pane, and a small picture of so many display
// pixels to its right or below it, whichever leaves the picture larger. Where the picture
// would be smaller than the small one, that lies over its corner.
func layBeside(part image.Rectangle, small image.Point, size fyne.Size, scale float32, flipped bool) laid {
	whole := laid{picture: fitPicture(part, size, scale, flipped)}
	if small == (image.Point{}) || !(scale > 0) {
		return whole
	}
	whole.size = fyne.NewSize(float32(small.X)/scale, float32(small.Y)/scale)
	right := fitPicture(part, size.SubtractWidthHeight(whole.size.Width+besideGap, 0), scale, flipped)
	below := fitPicture(part, size.SubtractWidthHeight(0, whole.size.Height+besideGap), scale, flipped)
	if whole.size.Height > size.Height {
		right = fit{}
	}
	if whole.size.Width > size.Width {
		below = fit{}
	}
	onRight := right.Size.Width >= below.Size.Width
	best := below
	if onRight {
		best = right
	}
	if max(best.Size.Width, best.Size.Height) < max(whole.size.Width, whole.size.Height) {
		whole.over, whole.small = true, whole.picture.Pos
		return whole
	}
	both := laid{picture: best, size: whole.size}
	if onRight {
		both.picture.Pos.X = middle(size.Width, best.Size.Width+besideGap+both.size.Width, scale)
		both.small = fyne.NewPos(both.picture.Pos.X+best.Size.Width+besideGap, both.picture.Pos.Y)
		if best.Size.Height < both.size.Height {
			both.small.Y = middle(size.Height, both.size.Height, scale)
		}
		return both
	}
	both.picture.Pos.Y = middle(size.Height, best.Size.Height+besideGap+both.size.Height, scale)
	both.small = fyne.NewPos(both.picture.Pos.X, both.picture.Pos.Y+best.Size.Height+besideGap)
	if best.Size.Width < both.size.Width {
		both.small.X = middle(size.Width, both.size.Width, scale)
	}
	return both
}

// stackedFrom is how much larger two pictures have to be above each other for them to stand
// so, and not side by side; our choice.
const stackedFrom = 1.6

// layHalves lays part of a picture into the right half of a pane, and another picture of its
// size into the left one; where that leaves little, into the lower and the upper half.
func layHalves(part image.Rectangle, size fyne.Size, scale float32, flipped bool) laid {
	right := fitPicture(part, fyne.NewSize((size.Width-besideGap)/2, size.Height), scale, flipped)
	below := fitPicture(part, fyne.NewSize(size.Width, (size.Height-besideGap)/2), scale, flipped)
	if stackedFrom*right.Size.Width >= below.Size.Width {
		l := laid{picture: right, size: right.Size}
		x := middle(size.Width, 2*right.Size.Width+besideGap, scale)
		l.picture.Pos.X, l.small = x+right.Size.Width+besideGap, fyne.NewPos(x, right.Pos.Y)
		return l
	}
	l := laid{picture: below, size: below.Size}
	y := middle(size.Height, 2*below.Size.Height+besideGap, scale)
	l.picture.Pos.Y, l.small = y+below.Size.Height+besideGap, fyne.NewPos(below.Pos.X, y)
	return l
}

// middle returns where something so long begins in the middle of a room, on a whole display
// pixel.
func middle(room, length, scale float32) float32 {
	return float32(math.Floor(float64((room-length)/2*scale))) / scale
}
