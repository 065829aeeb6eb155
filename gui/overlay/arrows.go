package overlay

import (
	"image"
	"math"

	"app.tonedesk/gui/stills/ink"
)

// Arrow is a form on which light falls.
type Arrow struct {
	X, Y    float64 // its middle, in parts of the picture's width and, from the top, height
	Degrees float64 // from where its light comes: 0 from the right, 90 from above
	Odd     bool    // it is lit from elsewhere than the others
}

// Lengths of an arrow, in units (our choice).
const (
	arrowLong = 36
	arrowHead = 9 // of each of its barbs
	arrowWide = 2.5
	arrowRing = 24 // radius of the ring round one that is odd
)

// Arrows draws over the middle of every form an arrow that goes the way of its light, light on
// dark, with a ring round an odd one. The picture's place is whole.
func Arrows(arrows []Arrow, whole image.Rectangle, lay Lay) *image.RGBA {
	img := lay.clear()
	var marks []ink.Mark
	for _, a := range arrows {
		marks = append(marks, a.mark(whole, lay))
	}
	new(ink.Drawer).Draw(img, img.Rect, marks)
	return img
}

// mark is an arrow as it lies over the mirror's picture.
func (a Arrow) mark(whole image.Rectangle, lay Lay) ink.Mark {
	at := lay.at(float64(whole.Min.X)+a.X*float64(whole.Dx()), float64(whole.Min.Y)+a.Y*float64(whole.Dy()))
	sin, cos := math.Sincos(a.Degrees * math.Pi / 180)
	way := ink.Pt(-cos, sin) // of the light, y downwards
	if lay.Flipped {
		way.X = -way.X
	}
	half := way.Times(arrowLong / 2 * lay.Unit)
	tip := at.Plus(half)
	barb := func(angle float64) ink.Point { return tip.Plus(way.Turned(angle).Times(arrowHead * lay.Unit)) }
	wide := arrowWide * lay.Unit
	m := ink.Mark{Grey: ink.LightGrey, Rim: rim * lay.Unit, RimGrey: ink.DarkGrey, Lines: []ink.Line{
		{Points: []ink.Point{at.Minus(half), tip}, Width: wide},
		{Points: []ink.Point{barb(0.8 * math.Pi), tip, barb(-0.8 * math.Pi)}, Width: wide},
	}}
	if a.Odd {
		r := arrowRing * lay.Unit
		m.Lines = append(m.Lines, ink.Line{Points: ink.Ellipse(at, ink.Pt(r, r)), Closed: true, Width: wide})
	}
	return m
}

// at returns where a place in the picture that is watched lies in the mirror, in display pixels.
func (l Lay) at(x, y float64) ink.Point {
	x = (x - float64(l.Part.Min.X)) * float64(l.Size.X) / float64(max(l.Part.Dx(), 1))
	if l.Flipped {
		x = float64(l.Size.X) - x
	}
	return ink.Pt(x, (y-float64(l.Part.Min.Y))*float64(l.Size.Y)/float64(max(l.Part.Dy(), 1)))
}
