package widgets

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
)

// besideGap is the room between the picture and the small one beside it.
const besideGap = 2 * Step

// Arrangement is how a picture and another one lie in a pane.
type Arrangement struct {
	Picture   Fit
	OtherPos  fyne.Position
	OtherSize fyne.Size // none if there is no other
	OnCorner  bool      // there was no room: the other lies over the picture's corner
}

// ArrangeBeside lays part of a picture into a pane, and a small picture of so many display
// pixels to its right or below it, whichever leaves the picture larger. Where the picture
// would be smaller than the small one, that lies over its corner.
func ArrangeBeside(part image.Rectangle, small image.Point, size fyne.Size, scale float32, flipped bool) Arrangement {
	whole := Arrangement{Picture: fitPicture(part, size, scale, flipped)}
	if small == (image.Point{}) || !(scale > 0) {
		return whole
	}
	whole.OtherSize = fyne.NewSize(float32(small.X)/scale, float32(small.Y)/scale)
	right := fitPicture(part, size.SubtractWidthHeight(whole.OtherSize.Width+besideGap, 0), scale, flipped)
	below := fitPicture(part, size.SubtractWidthHeight(0, whole.OtherSize.Height+besideGap), scale, flipped)
	if whole.OtherSize.Height > size.Height {
		right = Fit{}
	}
	if whole.OtherSize.Width > size.Width {
		below = Fit{}
	}
	onRight := right.Size.Width >= below.Size.Width
	best := below
	if onRight {
		best = right
	}
	if max(best.Size.Width, best.Size.Height) < max(whole.OtherSize.Width, whole.OtherSize.Height) {
		whole.OnCorner, whole.OtherPos = true, whole.Picture.Pos
		return whole
	}
	both := Arrangement{Picture: best, OtherSize: whole.OtherSize}
	if onRight {
		both.Picture.Pos.X = middle(size.Width, best.Size.Width+besideGap+both.OtherSize.Width, scale)
		both.OtherPos = fyne.NewPos(both.Picture.Pos.X+best.Size.Width+besideGap, both.Picture.Pos.Y)
		if best.Size.Height < both.OtherSize.Height {
			both.OtherPos.Y = middle(size.Height, both.OtherSize.Height, scale)
		}
		return both
	}
	both.Picture.Pos.Y = middle(size.Height, best.Size.Height+besideGap+both.OtherSize.Height, scale)
	both.OtherPos = fyne.NewPos(both.Picture.Pos.X, both.Picture.Pos.Y+best.Size.Height+besideGap)
	if best.Size.Width < both.OtherSize.Width {
		both.OtherPos.X = middle(size.Width, both.OtherSize.Width, scale)
	}
	return both
}

// stackedFrom is how much larger two pictures have to be above each other for them to stand
// so, and not side by side; our choice.
const stackedFrom = 1.6

// ArrangeHalves lays part of a picture into the right half of a pane, and another picture of its
// size into the left one; where that leaves little, into the lower and the upper half.
func ArrangeHalves(part image.Rectangle, size fyne.Size, scale float32, flipped bool) Arrangement {
	right := fitPicture(part, fyne.NewSize((size.Width-besideGap)/2, size.Height), scale, flipped)
	below := fitPicture(part, fyne.NewSize(size.Width, (size.Height-besideGap)/2), scale, flipped)
	if stackedFrom*right.Size.Width >= below.Size.Width {
		l := Arrangement{Picture: right, OtherSize: right.Size}
		x := middle(size.Width, 2*right.Size.Width+besideGap, scale)
		l.Picture.Pos.X, l.OtherPos = x+right.Size.Width+besideGap, fyne.NewPos(x, right.Pos.Y)
		return l
	}
	l := Arrangement{Picture: below, OtherSize: below.Size}
	y := middle(size.Height, 2*below.Size.Height+besideGap, scale)
	l.Picture.Pos.Y, l.OtherPos = y+below.Size.Height+besideGap, fyne.NewPos(below.Pos.X, y)
	return l
}

// middle returns where something so long begins in the middle of a room, on a whole display
// pixel: between two it would be blurred.
func middle(room, length, scale float32) float32 {
	return float32(math.Floor(float64((room-length)/2*scale))) / scale
}
