package overlay

import (
	"image"
	"image/draw"

	xdraw "golang.org/x/image/draw"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/views"
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

// Wiped returns the part of a drawn picture that lies left of x, with an upright line where
// what lies under it begins.
func Wiped(before *image.RGBA, x int) *image.RGBA {
	img := image.NewRGBA(before.Rect)
	x = min(max(x, 0), before.Rect.Dx())
	draw.Draw(img, image.Rect(0, 0, x, before.Rect.Dy()), before, image.Point{}, draw.Src)
	for y := range img.Rect.Dy() { // what lies outside of the image is not set
		img.SetRGBA(x-1, y, dark)
		img.SetRGBA(x, y, light)
		img.SetRGBA(x+1, y, dark)
	}
	return img
}
