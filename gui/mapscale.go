package gui

import (
	"image"
	"image/color"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// drawMapScale draws the scale of a map of changes at its lower left, of so many tones to
// either side: the map's own greys, from black to white, over what they stand for.
func (d *Desk) drawMapScale(img *image.RGBA, span float64) {
	unit := float64(d.mirror.Scale())
	bar := scaleBar(img.Rect.Size(), unit)
	if bar.Empty() {
		return
	}
	frame := bar.Inset(-max(1, int(unit)))
	for y := frame.Min.Y; y < frame.Max.Y; y++ {
		for x := frame.Min.X; x < frame.Max.X; x++ {
			c := widgets.MarkLight
			if image.Pt(x, y).In(bar) {
				at := 100 * float64(x-bar.Min.X) / float64(max(bar.Dx()-1, 1))
				grey := colour.GreyOf(at) // even steps of L*, as the map is painted
				c = color.NRGBA{grey, grey, grey, 255}
			}
			img.Set(x, y, c)
		}
	}
	size := float64(widgets.SmallSize) * unit
	y := float64(frame.Min.Y) - 0.5*float64(widgets.Step)*unit
	mark := ink.Mark{Grey: ink.LightGrey, Rim: 1.5 * unit, RimGrey: ink.DarkGrey}
	words := [3]string{"\u2212" + wording.Whole(span), "0", "+" + wording.Whole(span) + wording.Nbsp + "tones"}
	for i, word := range words {
		x := float64(bar.Min.X) + float64(bar.Dx()*i)/2
		if i > 0 {
			x -= ink.Width(ink.Bold, words[1], size) / 2
		}
		mark.Shapes = append(mark.Shapes, ink.Letters(ink.Bold, word, ink.Pt(x, y), size)...)
	}
	new(ink.Drawer).Draw(img, img.Rect, []ink.Mark{mark})
}

// scaleBar returns where the bar of a scale lies in a picture of so many pixels, unit of them
// to a length of the window; empty where there is no room.
func scaleBar(size image.Point, unit float64) image.Rectangle {
	step := int(float64(widgets.Step) * unit)
	wide := min(16*step, size.X/2)
	if wide < 6*step || size.Y < 8*step {
		return image.Rectangle{}
	}
	return image.Rect(step, size.Y-2*step, step+wide, size.Y-step)
}
