package overlay

import (
	"image"
	"image/color"

	"app.tonedesk/gui/stills/ink"
)

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
		Shapes: ink.Letters(ink.Bold, words, at, size),
		Grey:   ink.LightGrey, Rim: rim * unit, RimGrey: ink.DarkGrey,
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
