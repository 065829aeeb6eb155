package overlay

import (
	"image"
	"image/color"

	"app.tonedesk/analysis/colour"
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

// Lengths of a chip, in units.
const (
	chipHigh  = 28
	chipInner = 10 // beside its words
)

// chipGrey is under the words of a chip, L* 12, and chipText in its words, L* 90, as the window's
// other chips have them; its rim has that of a hairline, L* 45.
var chipGrey, chipText, chipRim = colour.GreyOf(12), colour.GreyOf(90), colour.GreyOf(45)

// NameRoom is how much of an image's width a name may take: all of it, or a half where another stands
// at the other side.
func NameRoom(img *image.RGBA, alone bool) float64 {
	if alone {
		return float64(img.Rect.Dx())
	}
	return float64(img.Rect.Dx()) / 2
}

// leastNames is the part of their size to which names grow smaller where they find no room (our
// choice: it can be read still).
const leastNames = 0.4

// FitName returns the first form of a name that finds room, and the unit for it: smaller than the one
// asked for where even the last form finds none. Words are never cut.
func FitName(room, unit float64, forms ...string) (name string, fitted float64) {
	for fitted = unit; ; fitted -= unit / 20 {
		for _, name = range forms {
			if ink.Width(ink.Bold, name, nameSize*fitted) <= room-(1.5*step+2*chipInner)*fitted {
				return name, fitted
			}
		}
		if fitted < leastNames*unit {
			return "", fitted
		}
	}
}

// Name puts a chip at the upper left of an image, or at its upper right, that says which picture
// is shown there; no name, no chip.
func Name(img *image.RGBA, name string, right bool, unit float64) {
	if name == "" {
		return
	}
	size, high := nameSize*unit, chipHigh*unit
	words := ink.Width(ink.Bold, name, size)
	wide := words + 2*chipInner*unit
	left := step * unit
	if right {
		left = float64(img.Rect.Dx()) - step*unit - wide
	}
	chip(img, name, ink.Pt(left, step*unit+high/2), ink.Pt(wide, high), size, unit)
}

// chip draws words in a chip of a width and height, the middle of whose left end lies at a point.
func chip(img *image.RGBA, words string, at, box ink.Point, size, unit float64) {
	wide, high := box.X, box.Y
	capsule := ink.Line{Points: []ink.Point{ink.Pt(at.X+high/2, at.Y), ink.Pt(max(at.X+wide-high/2, at.X+high/2), at.Y)}, Width: high - 2*unit}
	new(ink.Drawer).Draw(img, img.Rect, []ink.Mark{
		{Lines: []ink.Line{capsule}, Grey: chipGrey, Rim: unit, RimGrey: chipRim},
		{Text: ink.Text{Face: ink.Bold, Words: words, At: ink.Pt(at.X+chipInner*unit, at.Y+0.36*size), Size: size}, Grey: chipText},
	})
}
