package widgets

import (
	"image"
	"math"

	"fyne.io/fyne/v2/canvas"
)

// ringDashes is how many dashes make a ring.
const ringDashes = 8

// newDashedRing returns a ring of light dashes that fills its room; line is its width as a share of
// the room's.
func newDashedRing(line func() float32) *canvas.Raster {
	return canvas.NewRaster(func(w, h int) image.Image { return dashedRing(w, h, float64(line())) })
}

// dashedRing draws it, its edges softened over a pixel.
func dashedRing(w, h int, line float64) image.Image {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	side := float64(min(w, h))
	width := side * line
	middle := side/2 - width/2
	for y := range h {
		for x := range w {
			dx, dy := float64(x)+0.5-float64(w)/2, float64(y)+0.5-float64(h)/2
			across := width/2 + 0.5 - math.Abs(math.Hypot(dx, dy)-middle)
			turn := (math.Atan2(dy, dx)/(2*math.Pi) + 1) * ringDashes
			_, within := math.Modf(turn)
			along := (0.25-math.Abs(within-0.5))*2*math.Pi*middle/ringDashes + 0.5 // a dash and a gap are equally long
			ink := MarkLight
			ink.A = uint8(255 * max(0, min(across, 1)) * max(0, min(along, 1)))
			img.SetNRGBA(x, y, ink)
		}
	}
	return img
}
