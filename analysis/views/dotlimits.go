package views

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/dots"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// The marks of what lies beyond the limits: a minus where it is too dark, a plus where it is
// too light, so that they are told from each other, and from the squares of what is left
// out, by their shape. Bit x of row y is a pixel of the mark.
const markSize = 3

var (
	minusMark = [markSize]uint8{0b000, 0b111, 0b000}
	plusMark  = [markSize]uint8{0b010, 0b111, 0b010}
)

// DotLimits draws even neutral marks over the counted pixels of src that are darker or
// lighter than the limits allow, into dst as a view painted it. A mark is dark on a light
// ground and light on a dark one.
func DotLimits(dst []byte, src *reduce.Picture, l analysis.Limits) {
	darkUnder, lightFrom := l.Bins()
	var marks [256][markSize]uint8 // by bin
	for bin := range marks {
		switch {
		case bin < darkUnder:
			marks[bin] = minusMark
		case bin >= lightFrom:
			marks[bin] = plusMark
		}
	}
	for y := range src.Height {
		row := y % (dots.DotStep / 2)
		if row >= markSize {
			continue
		}
		for x := -dots.DotShift(y); x < src.Width; x += dots.DotStep {
			for column := max(0, -x); column < min(markSize, src.Width-x); column++ {
				at := y*src.Width + x + column
				linear := src.Linear[3*at:][:3]
				bin := fixed.Bins.Steps.Of(fixed.LightOf(linear[0], linear[1], linear[2]))
				if src.Left[at] == 0 && marks[bin][row]>>column&1 == 1 {
					dots.DrawDot(dst[analysis.PixelBytes*at:][:analysis.PixelBytes])
				}
			}
		}
	}
}
