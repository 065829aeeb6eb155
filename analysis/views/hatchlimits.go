package views

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// limitApart is how far the lines beyond the limits are from their ground, L* (our choice: thin
// lines are to be seen on every grey).
const limitApart = 45

// limitGreys are the greys of those lines by the bin of their ground's lightness.
var limitGreys = func() (greys [256]uint8) {
	for bin := range greys {
		by := float64(limitApart)
		if bin >= len(greys)/2 {
			by = -by
		}
		greys[bin] = colour.GreyOf(float64(bin)/colour.BinsPerLightness + by)
	}
	return greys
}()

// HatchLimits hatches the counted pixels of src that are lighter than the limits allow by lines that
// rise to the right, those that are darker by lines that fall, into dst as a view painted it: they
// are told from each other by shape, and from what is left out by having no veil.
func HatchLimits(dst []byte, src *reduce.Picture, l analysis.Limits) {
	darkUnder, lightFrom := l.Bins()
	for y := range src.Height {
		hatchRow(dst, src, y, (hatchStep-y%hatchStep)%hatchStep, func(bin int) bool { return bin >= lightFrom })
		hatchRow(dst, src, y, y%hatchStep, func(bin int) bool { return bin < darkUnder })
	}
}

// hatchRow draws what lines there are in a row, from a pixel on.
func hatchRow(dst []byte, src *reduce.Picture, y, from int, beyond func(bin int) bool) {
	for at := y*src.Width + from; at < (y+1)*src.Width; at += hatchStep {
		if src.Left[at] != 0 {
			continue
		}
		linear := src.Linear[3*at:][:3]
		if beyond(int(fixed.Bins.Steps.Of(fixed.LightOf(linear[0], linear[1], linear[2])))) {
			pixel := dst[analysis.PixelBytes*at:][:3]
			grey := limitGreys[fixed.Bins.Of(pixel[0], pixel[1], pixel[2])]
			pixel[0], pixel[1], pixel[2] = grey, grey, grey
		}
	}
}
