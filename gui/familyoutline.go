package gui

import (
	"image"
	"image/color"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/widgets"
)

// The parts of a family in the map of families.
const (
	familyLight  = 1
	familyShadow = 2
)

// outlineFamily draws where the sides of family i lie, as large as the mirror shows part of
// the picture with these bounds: the light side's border whole, the shadow side's in dashes,
// each light on dark, so that it shows on any picture. The rest is clear.
func outlineFamily(f *families.Found, i int, size image.Point, lay widgets.Fit, bounds image.Rectangle) *image.RGBA {
	img := image.NewRGBA(image.Rectangle{Max: size})
	if f.Width == 0 || f.Height == 0 || bounds.Empty() {
		return img
	}
	part := func(x, y int) uint8 { // of the family, at a pixel of the mirror; 0: none of it
		if x < 0 || y < 0 || x >= size.X || y >= size.Y {
			return 0
		}
		if lay.Flipped {
			x = size.X - 1 - x
		}
		part := lay.Bounds.Sub(bounds.Min)
		column := (part.Min.X*size.X + x*part.Dx()) * f.Width / (size.X * bounds.Dx())
		row := (part.Min.Y*size.Y + y*part.Dy()) * f.Height / (size.Y * bounds.Dy())
		at := int(f.Map[row*f.Width+column]) - 4*i
		if at != familyLight && at != familyShadow {
			return 0
		}
		return uint8(at)
	}
	for y := range size.Y {
		for x := range size.X {
			here := part(x, y)
			if here == 0 || here == part(x-1, y) && here == part(x+1, y) && here == part(x, y-1) && here == part(x, y+1) {
				continue
			}
			if here == familyShadow && (x+y)/dash%2 == 1 {
				continue
			}
			drawBorder(img, x, y)
		}
	}
	return img
}

// dash is the length of a dash and of the gap after it, in display pixels.
const dash = 5

// drawBorder sets a light pixel with dark ones around it, where no light one is yet.
func drawBorder(img *image.RGBA, x, y int) {
	light, dark := color.RGBAModel.Convert(widgets.MarkLight).(color.RGBA), color.RGBAModel.Convert(widgets.MarkDark).(color.RGBA)
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if p := image.Pt(x+dx, y+dy); p.In(img.Rect) && img.RGBAAt(p.X, p.Y) != light {
				img.SetRGBA(p.X, p.Y, dark)
			}
		}
	}
	img.SetRGBA(x, y, light)
}
