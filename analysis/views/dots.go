package views

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/dots"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// mark is a small shape: bit x of row y is a pixel of it.
type mark [markSize]uint8

const markSize = 3

// What is too dark has a minus, what is too light a plus, so that they are told from each other,
// and from what is hatched, by their shape.
var (
	minusMark = mark{0b000, 0b111, 0b000}
	plusMark  = mark{0b010, 0b111, 0b010}
)

// DotLimits draws even neutral marks over the counted pixels of src that are darker or lighter
// than the limits allow, into dst as a view painted it. A mark is dark on a light ground and light
// on a dark one.
func DotLimits(dst []byte, src *reduce.Picture, l analysis.Limits) {
	darkUnder, lightFrom := l.Bins()
	var marks [256]mark // by bin
	for bin := range marks {
		switch {
		case bin < darkUnder:
			marks[bin] = minusMark
		case bin >= lightFrom:
			marks[bin] = plusMark
		}
	}
	drawMarks(dst, src, func(at int) mark {
		if src.Left[at] != 0 {
			return mark{}
		}
		linear := src.Linear[3*at:][:3]
		return marks[fixed.Bins.Steps.Of(fixed.LightOf(linear[0], linear[1], linear[2]))]
	})
}

// drawMarks draws even marks, of each the pixels that have that mark.
func drawMarks(dst []byte, src *reduce.Picture, markOf func(at int) mark) {
	for y := range src.Height {
		row := y % (dots.DotStep / 2)
		if row >= markSize {
			continue
		}
		for x := -dots.DotShift(y); x < src.Width; x += dots.DotStep {
			for column := max(0, -x); column < min(markSize, src.Width-x); column++ {
				at := y*src.Width + x + column
				if markOf(at)[row]>>column&1 == 1 {
					dots.DrawDot(dst[analysis.PixelBytes*at:][:analysis.PixelBytes])
				}
			}
		}
	}
}
