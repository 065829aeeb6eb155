package overlay

import (
	"image"

	"app.tonedesk/gui/stills/ink"
)

// Ring is a place of a picture.
type Ring struct {
	X, Y   float64 // its middle, in parts of the picture's width and height
	Radius float64 // in parts of its longer side
	Wanted bool    // the painter marked it: it is drawn in dashes, with its middle
}

// Lengths of a ring, in units (our choice).
const (
	ringWide   = 2.5
	ringDashes = 12
	ringDot    = 2.5 // radius of the middle
	leastRing  = 12  // radius
)

// Rings draws a ring round every place, light on dark. The picture's place is whole.
func Rings(rings []Ring, whole image.Rectangle, lay Lay) *image.RGBA {
	img := lay.clear()
	var marks []ink.Mark
	for _, r := range rings {
		marks = append(marks, r.mark(whole, lay))
	}
	new(ink.Drawer).Draw(img, img.Rect, marks)
	return img
}

// mark is a ring as it lies over the mirror's picture.
func (r Ring) mark(whole image.Rectangle, lay Lay) ink.Mark {
	at := lay.at(float64(whole.Min.X)+r.X*float64(whole.Dx()), float64(whole.Min.Y)+r.Y*float64(whole.Dy()))
	scale := float64(lay.Size.X) / float64(max(lay.Part.Dx(), 1))
	radius := max(r.Radius*float64(max(whole.Dx(), whole.Dy()))*scale, leastRing*lay.Unit)
	m := ink.Mark{Grey: ink.LightGrey, Rim: rim * lay.Unit, RimGrey: ink.DarkGrey}
	if !r.Wanted {
		m.Lines = []ink.Line{{Points: ink.Ellipse(at, ink.Pt(radius, radius)), Closed: true, Width: ringWide * lay.Unit}}
		return m
	}
	m.Lines = ink.Dashes(at, radius, ringDashes, ringWide*lay.Unit)
	m.Lines = append(m.Lines, ink.Line{Points: []ink.Point{at, at}, Width: 2 * ringDot * lay.Unit})
	return m
}
