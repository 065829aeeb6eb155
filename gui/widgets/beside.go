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
	other := fyne.NewSize(float32(small.X)/scale, float32(small.Y)/scale)
	var right, below Fit
	if other.Height <= size.Height {
		right = fitPicture(part, size.SubtractWidthHeight(other.Width+besideGap, 0), scale, flipped)
	}
	if other.Width <= size.Width {
		below = fitPicture(part, size.SubtractWidthHeight(0, other.Height+besideGap), scale, flipped)
	}
	a := Arrangement{Picture: right, OtherPos: right.Pos, OtherSize: other}
	if below.Size.Width > right.Size.Width {
		a.Picture, a.OtherPos = below, below.Pos
	}
	own := a.Picture.Size
	switch {
	case max(own.Width, own.Height) < max(other.Width, other.Height):
		return Arrangement{Picture: whole.Picture, OtherPos: whole.Picture.Pos, OtherSize: other, OnCorner: true}
	case below.Size.Width > right.Size.Width:
		a.Picture.Pos.Y, a.OtherPos.Y = inTurn(size.Height, own.Height, other.Height, scale)
		if own.Width < other.Width {
			a.OtherPos.X = middle(size.Width, other.Width, scale)
		}
	default:
		a.Picture.Pos.X, a.OtherPos.X = inTurn(size.Width, own.Width, other.Width, scale)
		if own.Height < other.Height {
			a.OtherPos.Y = middle(size.Height, other.Height, scale)
		}
	}
	return a
}

// stackedFrom is how much larger two pictures have to be above each other for them to stand
// so, and not side by side; our choice.
const stackedFrom = 1.6

// ArrangeHalves lays part of a picture into the right half of a pane, and another picture of its
// size into the left one; where that leaves little, into the lower and the upper half.
func ArrangeHalves(part image.Rectangle, size fyne.Size, scale float32, flipped bool) Arrangement {
	right := fitPicture(part, fyne.NewSize((size.Width-besideGap)/2, size.Height), scale, flipped)
	below := fitPicture(part, fyne.NewSize(size.Width, (size.Height-besideGap)/2), scale, flipped)
	a := Arrangement{Picture: right, OtherPos: right.Pos, OtherSize: right.Size}
	if stackedFrom*right.Size.Width >= below.Size.Width {
		a.OtherPos.X, a.Picture.Pos.X = inTurn(size.Width, right.Size.Width, right.Size.Width, scale)
		return a
	}
	a = Arrangement{Picture: below, OtherPos: below.Pos, OtherSize: below.Size}
	a.OtherPos.Y, a.Picture.Pos.Y = inTurn(size.Height, below.Size.Height, below.Size.Height, scale)
	return a
}

// inTurn returns where two things of these lengths begin that stand in the middle of a room, the
// gap between them.
func inTurn(room, first, second, scale float32) (a, b float32) {
	a = middle(room, first+besideGap+second, scale)
	return a, a + first + besideGap
}

// middle returns where something so long begins in the middle of a room, on a whole display
// pixel: between two it would be blurred.
func middle(room, length, scale float32) float32 {
	return float32(math.Floor(float64((room-length)/2*scale))) / scale
}
