package views

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/dots"
	"app.tonedesk/analysis/reduce"
)

// DotMask draws even neutral dots over the pixels of src that are left out, into dst as a
// view painted it. A dot is dark on a light ground and light on a dark one.
func DotMask(dst []byte, src *reduce.Picture) {
	for y := range src.Height {
		if y%(dots.DotStep/2) >= dots.DotSize {
			continue
		}
		shift := dots.DotShift(y)
		left := src.Left[y*src.Width:][:src.Width]
		row := dst[analysis.PixelBytes*y*src.Width:][:analysis.PixelBytes*src.Width]
		for x, out := range left {
			if out == 0 || (x+shift)%dots.DotStep >= dots.DotSize {
				continue
			}
			dots.DrawDot(row[analysis.PixelBytes*x:][:analysis.PixelBytes])
		}
	}
}
