package overlay

import (
	"image"
	"image/color"

	"app.tonedesk/gui/stills/ink"
)

// Lay is how the picture that is watched lies in the mirror.
type Lay struct {
	Part    image.Rectangle // of the picture that the mirror shows
	Size    image.Point     // that it is shown in, display pixels
	Flipped bool            // left and right are exchanged
	Unit    float64         // display pixels
}

// over returns where a place lies over the mirror's picture before that is flipped.
func (l Lay) over(place image.Rectangle) image.Rectangle {
	return scaled(place.Sub(l.Part.Min), l.Part.Size(), l.Size)
}

// clear returns an image of the mirror's picture with nothing on it.
func (l Lay) clear() *image.RGBA { return image.NewRGBA(image.Rectangle{Max: l.Size}) }

// scaled brings a place in a picture of one size to the same place in another size.
func scaled(place image.Rectangle, from, to image.Point) image.Rectangle {
	return image.Rectangle{Min: scaledPoint(place.Min, from, to), Max: scaledPoint(place.Max, from, to)}
}

func scaledPoint(p, from, to image.Point) image.Point {
	return image.Pt((p.X*to.X+from.X/2)/max(from.X, 1), (p.Y*to.Y+from.Y/2)/max(from.Y, 1))
}

// The colours of lines: light on dark shows on any picture.
var (
	light = color.RGBA{ink.LightGrey, ink.LightGrey, ink.LightGrey, 255}
	dark  = color.RGBA{ink.DarkGrey, ink.DarkGrey, ink.DarkGrey, 255}
)

// Lengths in units, as the window's own.
const (
	step       = 8  // of spacing
	nameSize   = 13 // of the letters of names
	figureSize = 11 // of the letters of figures
	rim        = 1.5
)

// letters returns a mark of words in light letters with a dark rim, the base of the first at
// a point; size and unit are in display pixels.
func letters(words string, at ink.Point, size, unit float64) ink.Mark {
	return ink.Mark{
		Text: ink.Text{Face: ink.Bold, Words: words, At: at, Size: size},
		Grey: ink.LightGrey, Rim: rim * unit, RimGrey: ink.DarkGrey,
	}
}

// Name writes at the upper left of an image, or at its upper right, which picture is shown
// there.
func Name(img *image.RGBA, name string, right bool, unit float64) {
	size := nameSize * unit
	at := ink.Pt(step*unit, step*unit+size)
	if right {
		at.X = float64(img.Rect.Dx()) - step*unit - ink.Width(ink.Bold, name, size)
	}
	new(ink.Drawer).Draw(img, img.Rect, []ink.Mark{letters(name, at, size, unit)})
}
