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

// What is left out has squares, what is too dark a minus, what is too light a plus, so that
// they are told from each other by their shape.
var (
	dotMark   = mark{0b011, 0b011, 0b000} // of dots.DotSize
	minusMark = mark{0b000, 0b111, 0b000}
	plusMark  = mark{0b010, 0b111, 0b010}
)

// DotMask draws even neutral dots over the pixels of src that are left out, into dst as a
// view painted it. A dot is dark on a light ground and light on a dark one.
func DotMask(dst []byte, src *reduce.Picture) {
	drawMarks(dst, src, func(at int) mark {
		if src.Left[at] == 0 {
			return mark{}
		}
		return dotMark
	})
}

// DotLimits draws marks in the same way over the counted pixels of src that are darker or
// lighter than the limits allow.
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
