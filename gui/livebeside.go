package gui

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
)

// besideSize returns the size of the small picture that a view shows beside a picture, in
// pixels; none if it shows none.
func besideSize(view views.View, knob float64, bounds image.Rectangle) image.Point {
	if view.Beside == nil {
		return image.Point{}
	}
	w, h := analysis.SmallSize(bounds.Dx(), bounds.Dy(), int(view.Beside(knob)))
	return image.Pt(w, h)
}

// paintBeside makes the picture small and paints it in the view, if that shows it beside
// the picture; and measures what became of the gaps between groups. same says that
// neither the picture nor its look has changed.
func (w *worker) paintBeside(p analysis.Pixels, bounds image.Rectangle, next wanted, same bool) {
	if same {
		return
	}
	w.done.beside, w.done.small = nil, w.done.small[:0]
	view := viewOf(next)
	size := besideSize(view, next.settings.knob(view), bounds)
	if size == (image.Point{}) || next.halves {
		return
	}
	next.setup.out(&w.tinyOut, bounds.Min, next.covered.Intersect(bounds))
	tiny := w.tiny.Reduce(p, size.X, size.Y, &w.tinyOut)
	img := backImage(&w.besides, size)
	w.paintView(img.Pix, tiny, view, next)
	if next.settings.Mirrored {
		views.FlipLeftRight(img.Pix, size.X, size.Y)
	}
	w.done.beside = img
	histogram := tiny.Histogram()
	w.done.small = w.gaps.Changes(w.done.small, &histogram, w.done.reading)
}
