package analysis

import (
	"image"
	"slices"
)

// Mask says what of a picture is left out of the statistics: blank paper, the workspace
// around the canvas, a window that covers part of it. The zero value leaves nothing out.
type Mask struct {
	// Areas count pixels from the picture's top left. They may overlap and may reach, or
	// lie, outside the picture.
	Areas []image.Rectangle
	// Lightness marks the bins of the histogram to leave out: bin i holds the lightness
	// values that round to i/2.55.
	Lightness [256]bool
}

// LeavesOut reports whether bin is left out by its lightness. A nil Mask leaves out nothing.
func (o *Mask) LeavesOut(bin uint8) bool { return o != nil && o.Lightness[bin] }

// Clip appends to dst the parts of the areas that lie inside bounds, ordered by their
// left side, as NextSpan wants them.
func (o *Mask) Clip(dst []image.Rectangle, bounds image.Rectangle) []image.Rectangle {
	if o == nil {
		return dst
	}
	for _, area := range o.Areas {
		if part := area.Canon().Intersect(bounds); !part.Empty() {
			dst = append(dst, part)
		}
	}
	slices.SortFunc(dst, func(a, b image.Rectangle) int { return a.Min.X - b.Min.X })
	return dst
}

// NextSpan returns the end of the longest run of pixels of row y, from column x on, that
// are all counted or all left out, and which of the two. areas come from Clip, width is
// the picture's and more than x.
func NextSpan(areas []image.Rectangle, y, x, width int) (end int, counted bool) {
	out := x // where the areas met so far end
	for i := range areas {
		a := &areas[i]
		if y < a.Min.Y || y >= a.Max.Y || a.Max.X <= out {
			continue
		}
		if a.Min.X > out {
			if out == x {
				return a.Min.X, true
			}
			break
		}
		out = a.Max.X
	}
	if out > x {
		return out, false
	}
	return width, true
}
