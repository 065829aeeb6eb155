package views

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// How what is left out is hatched: thin lines, rising to the right, in a grey that is a little
// darker than its ground, or lighter on a dark one. Faint, since the picture is still looked at
// there, and seen on every grey (our choice).
const (
	hatchStep  = 8  // pixels from line to line, across and down
	hatchApart = 12 // L* from the ground
)

// hatchGreys are the greys of lines by the bin of their ground's lightness.
var hatchGreys = func() (greys [256]uint8) {
	for bin := range greys {
		by := float64(hatchApart)
		if bin >= len(greys)/2 {
			by = -by
		}
		greys[bin] = colour.GreyOf(float64(bin)/colour.BinsPerLightness + by)
	}
	return greys
}()

// HatchMask hatches the pixels of src that are left out, in dst as a view painted it.
func HatchMask(dst []byte, src *reduce.Picture) {
	for y := range src.Height {
		left := src.Left[y*src.Width:][:src.Width]
		for x := (hatchStep - y%hatchStep) % hatchStep; x < src.Width; x += hatchStep {
			if left[x] == 0 {
				continue
			}
			pixel := dst[analysis.PixelBytes*(y*src.Width+x):][:analysis.PixelBytes]
			grey := hatchGreys[fixed.Bins.Of(pixel[0], pixel[1], pixel[2])]
			pixel[0], pixel[1], pixel[2] = grey, grey, grey
		}
	}
}
