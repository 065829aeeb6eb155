package live

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
)

// BesideSize returns the size of the small picture that a view shows beside a picture, in
// pixels; none if it shows none.
func BesideSize(view views.View, knob float64, bounds image.Rectangle) image.Point {
	if view.Beside == nil {
		return image.Point{}
	}
	w, h := analysis.SmallSize(bounds.Dx(), bounds.Dy(), int(view.Beside(knob)))
	return image.Pt(w, h)
}

// paintBeside makes the picture small and paints it in the view, if that shows it beside
// the picture; and measures what became of the gaps between groups. same says that
// neither the picture nor its look has changed.
func (w *Worker) paintBeside(p analysis.Pixels, bounds image.Rectangle, next Wanted, same bool) {
	if same {
		return
	}
	w.Done.Beside, w.Done.Small = nil, w.Done.Small[:0]
	view := ViewOf(next)
	size := BesideSize(view, next.Settings.Knob(view), bounds)
	if size == (image.Point{}) || next.Halves {
		return
	}
	next.Setup.Out(&w.tinyOut, bounds.Min, next.Covered.Intersect(bounds))
	tiny := w.tiny.Reduce(p, size.X, size.Y, &w.tinyOut)
	img := backImage(&w.besides, size)
	w.paintView(img.Pix, tiny, view, next)
	if next.Settings.Mirrored {
		views.FlipLeftRight(img.Pix, size.X, size.Y)
	}
	w.Done.Beside = img
	histogram := tiny.Histogram()
	w.Done.Small = w.gaps.Changes(w.Done.Small, &histogram, w.Done.Reading)
}
