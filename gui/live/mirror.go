package live

import (
	"image"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/settings"
)

// pair is an image that is shown, and another to paint meanwhile.
type pair [2]*image.RGBA

// next returns the image that is not shown, in the size asked for. It is the one shown from
// now on.
func (p *pair) next(size image.Point) *image.RGBA {
	p[0], p[1] = p[1], p[0]
	if p[1] == nil || p[1].Rect.Size() != size {
		p[1] = image.NewRGBA(image.Rectangle{Max: size})
	}
	return p[1]
}

// mirror paints the picture that is shown large.
type mirror struct {
	reducer *reduce.Reducer
	mask    analysis.Mask
	reduced *reduce.Picture
	part    image.Rectangle // of the source, that it shows
	plain   plain
	images  pair
}

// plain is what is shown before it is hatched and flipped. It is kept, so that only what changed is
// painted again.
type plain struct {
	pix  []byte // RGBA without gaps between rows
	size image.Point
	view string
	knob float64
}

// paint brings it up to date with a reduced picture.
func (p *plain) paint(t *task, src *reduce.Picture, r *analysis.Reading) {
	size, view, knob := image.Pt(src.Width, src.Height), t.view, t.Settings.Knob(t.view)
	holds := p.size == size && p.view == view.Key && p.knob == knob && view.Apart()
	bytes := analysis.PixelBytes * size.X * size.Y
	p.pix = slices.Grow(p.pix[:0], bytes)[:bytes]
	p.size = image.Point{} // until it is painted to the end
	if holds {
		src.Only(func() { t.paint(p.pix, src, view, r) })
	} else {
		t.paint(p.pix, src, view, r)
	}
	p.size, p.view, p.knob = size, view.Key, knob
}

// paint reduces what is shown of the picture and paints it in its view, hatched where
// it isn't counted, and where it is beyond the limits. What the frame before left is used where it holds.
func (m *mirror) paint(t *task, r *analysis.Reading) *image.RGBA {
	if t.same.reduced && t.same.look {
		return m.images[1]
	}
	if !t.same.reduced {
		t.leaveOut(&m.mask, t.lay.Bounds.Min)
		part := t.lay.Bounds.Sub(t.bounds.Min)
		changed := t.changed.Sub(part.Min)
		if t.lay.Bounds != m.part {
			changed = image.Rectangle{Max: part.Size()}
		}
		m.part = t.lay.Bounds
		m.reduced = m.reducer.ReduceChanged(t.pixels.Crop(part), t.lay.Pixels.X, t.lay.Pixels.Y, &m.mask, changed)
	}
	size := image.Pt(m.reduced.Width, m.reduced.Height)
	img := m.images.next(size)
	m.plain.paint(t, m.reduced, r)
	copy(img.Pix, m.plain.pix)
	views.HatchMask(img.Pix, m.reduced)
	if t.Settings.Hatched() {
		views.HatchLimits(img.Pix, m.reduced, t.Settings.Limits())
	}
	t.flip(img)
	return img
}

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
	mask    analysis.Mask
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
	t.leaveOut(&b.mask, t.bounds.Min)
	small := b.reducer.Reduce(t.pixels, size.X, size.Y, &b.mask) // all of it: what changed while another view was shown isn't known
	b.img = b.images.next(size)
	t.paint(b.img.Pix, small, t.view, r)
	t.flip(b.img)
	histogram := small.Histogram()
	b.gaps = b.meter.Changes(b.gaps, &histogram, r)
	return b.img, b.gaps
}

// loupeCells is the side of the loupe, in source pixels.
const loupeCells = 15

// loupe paints the pixels around the pointer.
type loupe struct {
	reducer *reduce.Reducer
	part    [analysis.PixelBytes * loupeCells * loupeCells]byte // painted, without what lies outside
	images  pair
}

// paint paints the loupe in the view of the mirror or, where that needs the pixels around
// them, as greys. What lies outside of the picture stays empty. nil: nobody looks at it.
func (l *loupe) paint(t *task, r *analysis.Reading) *image.RGBA {
	corner := t.Look.Sub(t.bounds.Min).Sub(image.Pt(loupeCells/2, loupeCells/2))
	part := image.Rectangle{Min: corner, Max: corner.Add(image.Pt(loupeCells, loupeCells))}.Intersect(t.pixels.Bounds())
	if !t.Looking || part.Empty() {
		return nil
	}
	near := l.reducer.Reduce(t.pixels.Crop(part), part.Dx(), part.Dy(), nil)
	row := analysis.PixelBytes * part.Dx()
	t.paint(l.part[:row*part.Dy()], near, nearView(t.view), r)
	img := l.images.next(image.Pt(loupeCells, loupeCells))
	clear(img.Pix)
	at := part.Min.Sub(corner)
	for y := range part.Dy() {
		copy(img.Pix[img.PixOffset(at.X, at.Y+y):], l.part[y*row:][:row])
	}
	t.flip(img)
	return img
}

// nearView returns the view in which the loupe shows its pixels: the greys, where a view
// needs the pixels around.
func nearView(view views.View) views.View {
	if grey, ok := views.ByKey(settings.ViewGrey); ok && view.Wide {
		return grey
	}
	return view
}
