package overlay

import (
	"image"
	"image/color"

	xdraw "golang.org/x/image/draw"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/stills/ink"
)

// Map draws the map of what changed in a place, up to span tones to either side.
func Map(c *analysis.Change, span float64, place image.Rectangle, lay Lay) *image.RGBA {
	img, whole := lay.clear(), c.Map(span)
	xdraw.ApproxBiLinear.Scale(img, lay.over(place), whole, whole.Bounds(), xdraw.Src, nil)
	if lay.Flipped {
		views.FlipLeftRight(img.Pix, lay.Size.X, lay.Size.Y)
	}
	return img
}

// Scale draws the scale of a map at its lower left, if there is room: the map's own greys,
// from black to white, with figures over both ends and the middle.
func Scale(img *image.RGBA, figures [3]string, unit float64) {
	bar := scaleBar(img.Rect.Size(), unit)
	if bar.Empty() {
		return
	}
	frame := bar.Inset(-max(1, int(unit)))
	for y := frame.Min.Y; y < frame.Max.Y; y++ {
		for x := frame.Min.X; x < frame.Max.X; x++ {
			c := light
			if image.Pt(x, y).In(bar) {
				at := 100 * float64(x-bar.Min.X) / float64(max(bar.Dx()-1, 1))
				grey := colour.GreyOf(at) // even steps of L*, as the map is painted
				c = color.RGBA{grey, grey, grey, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	size := figureSize * unit
	y := float64(frame.Min.Y) - step/2*unit
	marks := make([]ink.Mark, len(figures))
	for i, words := range figures {
		x := float64(bar.Min.X) + float64(bar.Dx()*i)/2
		if i > 0 {
			x -= ink.Width(ink.Bold, figures[1], size) / 2
		}
		marks[i] = letters(words, ink.Pt(x, y), size, unit)
	}
	new(ink.Drawer).Draw(img, img.Rect, marks)
}

// scaleBar returns where the bar of a scale lies in an image of so many pixels; empty where
// there is no room.
func scaleBar(size image.Point, unit float64) image.Rectangle {
	gap := int(step * unit)
	wide := min(16*gap, size.X/2)
	if wide < 6*gap || size.Y < 8*gap {
		return image.Rectangle{}
	}
	return image.Rect(gap, size.Y-2*gap, gap+wide, size.Y-gap)
}
