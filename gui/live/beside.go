package live

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
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

// beside paints the whole picture small, for views that show it beside the large one, and
// measures what became of the gaps between groups.
type beside struct {
	reducer *reduce.Reducer
	out     analysis.Mask
	images  pair
	meter   analysis.GapMeter
	img     *image.RGBA // nil: none is shown
	gaps    []analysis.GapChange
}

// paint returns the small picture, nil for none, and its gaps.
func (b *beside) paint(t *task, r *analysis.Reading) (*image.RGBA, []analysis.GapChange) {
	if t.same.beside {
		return b.img, b.gaps
	}
	b.img, b.gaps = nil, b.gaps[:0]
	size := BesideSize(t.view, t.Settings.Knob(t.view), t.bounds)
	if size == (image.Point{}) || t.Halves {
		return b.img, b.gaps
	}
	t.leaveOut(&b.out, t.bounds.Min)
	small := b.reducer.Reduce(t.pixels, size.X, size.Y, &b.out)
	b.img = b.images.next(size)
	t.paint(b.img.Pix, small, t.view, r)
	t.flip(b.img)
	histogram := small.Histogram()
	b.gaps = b.meter.Changes(b.gaps, &histogram, r)
	return b.img, b.gaps
}
