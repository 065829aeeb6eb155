package overlay

import (
	"image"

	"app.tonedesk/analysis/families"
)

// The parts of a family in the map of families.
const (
	familyLight  = 1
	familyShadow = 2
)

// dash is the length of a dash and of the gap after it, in display pixels.
const dash = 5

// Outline draws where the sides of family i of a picture lie, whose place is whole: the light
// side's border whole, the shadow side's in dashes, each light on dark.
func Outline(f *families.Found, i int, whole image.Rectangle, lay Lay) *image.RGBA {
	img := lay.clear()
	if f.Width == 0 || f.Height == 0 || whole.Empty() {
		return img
	}
	part := func(x, y int) uint8 { // of the family, at a pixel of the mirror; 0: none of it
		if x < 0 || y < 0 || x >= lay.Size.X || y >= lay.Size.Y {
			return 0
		}
		if lay.Flipped {
			x = lay.Size.X - 1 - x
		}
		part := lay.Part.Sub(whole.Min)
		column := (part.Min.X*lay.Size.X + x*part.Dx()) * f.Width / (lay.Size.X * whole.Dx())
		row := (part.Min.Y*lay.Size.Y + y*part.Dy()) * f.Height / (lay.Size.Y * whole.Dy())
		at := int(f.Map[row*f.Width+column]) - 4*i
		if at != familyLight && at != familyShadow {
			return 0
		}
		return uint8(at)
	}
	for y := range lay.Size.Y {
		for x := range lay.Size.X {
			here := part(x, y)
			if here == 0 || here == part(x-1, y) && here == part(x+1, y) && here == part(x, y-1) && here == part(x, y+1) {
				continue
			}
			if here == familyShadow && (x+y)/dash%2 == 1 {
				continue
			}
			setBorder(img, x, y)
		}
	}
	return img
}

// setBorder sets a light pixel with dark ones around it, where no light one is yet.
func setBorder(img *image.RGBA, x, y int) {
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if img.RGBAAt(x+dx, y+dy) != light {
				img.SetRGBA(x+dx, y+dy, dark)
			}
		}
	}
	img.SetRGBA(x, y, light)
}
