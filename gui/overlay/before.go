package overlay

import (
	"image"
	"image/draw"

	xdraw "golang.org/x/image/draw"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/stills/ink"
)

// Before is a picture from before.
type Before struct {
	Picture analysis.Pixels
	Place   image.Rectangle // that it shows
	View    views.View
	Look    views.Look
}

// Draw draws the picture in its view, where it lies over the mirror's.
func (b Before) Draw(lay Lay) *image.RGBA {
	img := lay.clear()
	met := b.Place.Intersect(lay.Part)
	part := scaled(met.Sub(b.Place.Min), b.Place.Size(), b.Picture.Bounds().Size())
	to := lay.over(met)
	if !part.Empty() && !to.Empty() {
		small := b.paint(b.Picture.Crop(part), to.Size())
		xdraw.NearestNeighbor.Scale(img, to, small, small.Rect, xdraw.Src, nil)
	}
	if lay.Flipped {
		views.FlipLeftRight(img.Pix, lay.Size.X, lay.Size.Y)
	}
	return img
}

// paint paints a part of the picture, reduced to size where it is larger.
func (b Before) paint(part analysis.Pixels, size image.Point) *image.RGBA {
	r := reduce.New()
	defer r.Close()
	small := r.Reduce(part, size.X, size.Y, nil)
	img := image.NewRGBA(image.Rect(0, 0, small.Width, small.Height))
	b.View.Paint(img.Pix, small, b.Look)
	return img
}

// Grip is where the grip of a dividing line is: its middle in display pixels, and its size in units.
type Grip struct {
	At         image.Point
	Wide, High float64
}

// Divided returns the part of a drawn picture that lies left of a grip, with an upright line where
// what lies under it begins, and the grip on it.
func Divided(before *image.RGBA, grip Grip, unit float64) *image.RGBA {
	img := image.NewRGBA(before.Rect)
	x := min(max(grip.At.X, 0), before.Rect.Dx())
	draw.Draw(img, image.Rect(0, 0, x, before.Rect.Dy()), before, image.Point{}, draw.Src)
	half := max(1, int(unit+0.5))
	for y := range img.Rect.Dy() { // what lies outside of the image is not set
		for by := -2 * half; by < 2*half; by++ {
			c := dark
			if by >= -half && by < half {
				c = light
			}
			img.SetRGBA(x+by, y, c)
		}
	}
	new(ink.Drawer).Draw(img, img.Rect, grip.marks(unit))
	return img
}

// marks are what is drawn of a grip: dark with a light rim, with a wedge to either side.
func (g Grip) marks(unit float64) []ink.Mark {
	const corner = 8 // radius of a corner, in units
	at := ink.Pt(float64(g.At.X), float64(g.At.Y))
	around := func(x, y float64) ink.Point { return at.Plus(ink.Pt(x, y).Times(unit)) }
	x, y := g.Wide/2-corner, g.High/2-corner
	box := []ink.Point{around(-x, -y), around(x, -y), around(x, y), around(-x, y)}
	const rim = 2
	marks := []ink.Mark{{
		Lines: []ink.Line{{Points: box, Closed: true, Width: 2 * (corner - rim) * unit}, {Points: []ink.Point{around(0, -y), around(0, y)}, Width: 2 * (corner - rim) * unit}},
		Grey:  ink.DarkGrey, Rim: rim * unit, RimGrey: ink.LightGrey,
	}}
	for _, side := range []float64{-1, 1} {
		wedge := []ink.Point{around(side*4, -5), around(side*9, 0), around(side*4, 5)}
		marks = append(marks, ink.Mark{Lines: []ink.Line{{Points: wedge, Width: 2 * unit}}, Grey: ink.LightGrey})
	}
	return marks
}
