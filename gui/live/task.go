package live

import (
	"image"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/views"
	"app.tonedesk/capture"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// task is the work on one frame. Its steps read it, and none changes it.
type task struct {
	Wanted
	view   views.View
	pixels analysis.Pixels // what is watched: each is opaque or fully transparent
	lasts  bool            // nobody will ever write to them
	bounds image.Rectangle // where they lie in the source
	// changed is where they differ at most from those that were worked on before.
	changed image.Rectangle
	lay     Lay
	same    same
	grown   *analysis.Grown // from the setup's seeds, in pixels; nil where there are none
}

// same says what still holds of the frame before.
type same struct {
	picture bool
	reading bool // and what is counted
	reduced bool // and what is shown of it, and how large
	look    bool // how what is reduced is painted
	beside  bool // the small picture beside
}

// begin says what is to be done with a frame; ok is false if that is nothing.
func (w *Worker) begin(f *capture.Frame, repeated bool) (t task, ok bool) {
	t.Wanted = w.wanted()
	feed := t.Setup.Source.Feed()
	if repeated && feed != w.feed {
		return t, false // a frame of what was watched before; the next is under way
	}
	whole := w.whole && repeated
	w.feed, w.whole = feed, false
	opaque := w.opaque(f, repeated)
	t.lasts = f.Lasts && len(opaque.Pix) > 0 && &opaque.Pix[0] == &f.Pix[0] // not laid over paper
	t.pixels, t.bounds = partOf(opaque, f.Origin, t.Setup.Source)
	if t.bounds.Empty() || t.Lay == nil {
		return t, false
	}
	t.view, t.lay = ViewOf(t.Wanted), t.Lay(t.bounds)
	if whole {
		t.same = sameAs(&t, &w.last)
	}
	return t, true
}

// finish keeps what the next task has to be compared with: of the frame, nothing.
func (w *Worker) finish(t task) {
	t.pixels = analysis.Pixels{}
	w.last, w.whole = t, true
	w.fresh.done()
}

// opaque returns a frame's pixels, over paper where they are partly transparent.
func (w *Worker) opaque(f *capture.Frame, repeated bool) analysis.Pixels {
	if repeated {
		return w.paper.Again(pictures.Pixels(f))
	}
	return w.paper.Opaque(pictures.Pixels(f), analysis.White)
}

// partOf returns the part of a picture that is watched, and where it lies in the source.
func partOf(p analysis.Pixels, origin image.Point, from setup.Source) (analysis.Pixels, image.Rectangle) {
	bounds := p.Bounds().Add(origin)
	if from.Kind.OnScreen() || from.Region.Empty() {
		return p, bounds
	}
	part := from.Region.Intersect(bounds)
	return p.Crop(part.Sub(origin)), part
}

// sameAs says what still holds of the task before, whose frame is the same.
func sameAs(t, last *task) (s same) {
	s.picture = t.bounds == last.bounds
	s.reading = s.picture && t.Settings.Groups == last.Settings.Groups && t.Settings.NoGround == last.Settings.NoGround &&
		t.Covered == last.Covered && slices.Equal(t.Chips, last.Chips) && t.Setup.Out.Same(last.Setup.Out) && sameSlice(t.Setup.Borders, last.Setup.Borders)
	s.reduced = s.reading && t.lay == last.lay
	s.look = sameLook(t.Settings, last.Settings, t.view)
	s.beside = s.reading && s.look && t.Halves == last.Halves
	return s
}

// sameSlice reports whether two slices that are never written to are the same one.
func sameSlice[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// sameLook reports whether two settings, the first for a view, show a reduced picture alike.
func sameLook(a, b settings.Settings, view views.View) bool {
	return a.View == b.View && a.Knob(view) == b.Knob(view) && a.Edges == b.Edges && a.Flipped == b.Flipped &&
		a.Hatched() == b.Hatched() && a.Limits() == b.Limits()
}

// leaveOut sets what isn't counted of a part of the picture that begins at origin.
func (t *task) leaveOut(mask *analysis.Mask, origin image.Point) {
	t.mask(mask, origin)
	mask.Grown, mask.At = t.grown, t.bounds.Min.Sub(origin)
}

// mask sets mask to what isn't counted of a part of the picture that begins at origin, but for what is
// grown.
func (t *task) mask(mask *analysis.Mask, origin image.Point) {
	t.Setup.Mask(mask, origin, t.Covered.Intersect(t.bounds))
	for _, chip := range t.Chips {
		if part := chip.Intersect(t.bounds); !part.Empty() {
			mask.Areas = append(mask.Areas, part.Sub(origin))
		}
	}
}

// paint paints a reduced picture in a view, as RGBA without gaps between rows.
func (t *task) paint(dst []byte, src *reduce.Picture, view views.View, r *analysis.Reading) {
	view.Paint(dst, src, views.Look{Reading: r, Knob: t.Settings.Knob(view), Edges: t.Settings.Edges})
}

// flip exchanges left and right, if that is wanted.
func (t *task) flip(img *image.RGBA) {
	if t.Settings.Flipped {
		views.FlipLeftRight(img.Pix, img.Rect.Dx(), img.Rect.Dy())
	}
}
