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
	// Grown is what hangs together in colour; nil for nothing. At is where its top left lies,
	// from the picture's: the picture may be a part of the one that it was grown in.
	Grown *Grown
	At    image.Point
	// Lightness marks the bins of the histogram to leave out: bin i holds the lightness
	// values that round to i/2.55.
	Lightness [256]bool
}

// LeavesOut reports whether bin is left out by its lightness. A nil Mask leaves out nothing.
func (o *Mask) LeavesOut(bin uint8) bool { return o != nil && o.Lightness[bin] }

// WasLeft keeps what a mask left out, in its own memory, to find out whether another one leaves out
// the same. The zero value is nothing that was left out.
type WasLeft struct {
	areas     []image.Rectangle
	first     []int32 // as in Grown
	runs      []run
	at        image.Point
	lightness [256]bool
}

// Keep keeps what a mask, nil for none, leaves out.
func (w *WasLeft) Keep(o *Mask) {
	w.areas, w.first, w.runs, w.at, w.lightness = w.areas[:0], w.first[:0], w.runs[:0], image.Point{}, [256]bool{}
	if o == nil {
		return
	}
	w.areas, w.lightness = append(w.areas, o.Areas...), o.Lightness
	if o.Grown != nil {
		w.first, w.runs, w.at = append(w.first, o.Grown.first...), append(w.runs, o.Grown.runs...), o.At
	}
}

// Same reports whether a mask, nil for none, leaves out the same, said in the same way.
func (w *WasLeft) Same(o *Mask) bool {
	if o == nil {
		o = &Mask{}
	}
	first, runs, at := []int32(nil), []run(nil), image.Point{}
	if o.Grown != nil {
		first, runs, at = o.Grown.first, o.Grown.runs, o.At
	}
	return w.at == at && w.lightness == o.Lightness && slices.Equal(w.areas, o.Areas) && slices.Equal(w.first, first) && slices.Equal(w.runs, runs)
}

// Left is what a mask leaves out of a picture by its place, to be walked row by row. The zero
// value leaves nothing out.
type Left struct {
	areas []image.Rectangle // inside the picture, ordered by their left side
	grown *Grown
	at    image.Point
}

// Set makes l what a mask, nil for none, leaves out of a picture with those bounds, in l's own
// memory.
func (l *Left) Set(o *Mask, bounds image.Rectangle) {
	l.areas, l.grown = l.areas[:0], nil
	if o == nil {
		return
	}
	for _, area := range o.Areas {
		if part := area.Canon().Intersect(bounds); !part.Empty() {
			l.areas = append(l.areas, part)
		}
	}
	slices.SortFunc(l.areas, func(a, b image.Rectangle) int { return a.Min.X - b.Min.X })
	l.grown, l.at = o.Grown, o.At
}

// NextSpan returns the end of a run of pixels of row y, from column x on, that are all counted
// or all left out, and which of the two. A run that is counted is as long as may be. width is
// the picture's and more than x.
func (l *Left) NextSpan(y, x, width int) (end int, counted bool) {
	end, counted = l.nextArea(y, x, width)
	if !counted || l.grown == nil {
		return end, counted
	}
	from, to := l.grown.run(y-l.at.Y, x-l.at.X)
	switch from, to = from+l.at.X, to+l.at.X; {
	case from >= end:
		return end, true
	case from > x:
		return from, true
	}
	return min(to, width), false
}

// frame returns the smallest rectangle around what is counted of a picture of that size; empty if
// nothing is.
func (l *Left) frame(width, height int) (frame image.Rectangle) {
	frame = image.Rectangle{Min: image.Pt(width, height)}
	for y := range height {
		for x := 0; x < width; {
			end, counted := l.NextSpan(y, x, width)
			if counted {
				frame.Min = image.Pt(min(frame.Min.X, x), min(frame.Min.Y, y))
				frame.Max = image.Pt(max(frame.Max.X, end), y+1)
				end = max(end, frame.Max.X) // what is between tells nothing new
			}
			x = end
		}
	}
	return frame
}

// nextArea is NextSpan for the areas alone.
func (l *Left) nextArea(y, x, width int) (end int, counted bool) {
	out := x // where the areas met so far end
	for i := range l.areas {
		a := &l.areas[i]
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

// Around returns what of bounds lies around a canvas, in at most four parts that don't overlap:
// above and below as wide as bounds, left and right as high as the canvas.
func Around(bounds, canvas image.Rectangle) (parts []image.Rectangle) {
	c := canvas.Intersect(bounds)
	for _, part := range [4]image.Rectangle{
		image.Rect(bounds.Min.X, bounds.Min.Y, bounds.Max.X, c.Min.Y),
		image.Rect(bounds.Min.X, c.Max.Y, bounds.Max.X, bounds.Max.Y),
		image.Rect(bounds.Min.X, c.Min.Y, c.Min.X, c.Max.Y),
		image.Rect(c.Max.X, c.Min.Y, bounds.Max.X, c.Max.Y),
	} {
		if !part.Empty() {
			parts = append(parts, part)
		}
	}
	return parts
}
