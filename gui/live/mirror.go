package live

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/views"
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
	out     analysis.Mask
	reduced *reduce.Picture
	images  pair
}

// paint reduces what is shown of the picture and paints it in its view, with dots where it
// isn't counted or beyond the limits. What the frame before left is used where it holds.
func (m *mirror) paint(t *task, r *analysis.Reading) *image.RGBA {
	if t.same.reduced && t.same.look {
		return m.images[1]
	}
	if !t.same.reduced {
		t.leaveOut(&m.out, t.lay.Bounds.Min)
		m.reduced = m.reducer.Reduce(t.pixels.Crop(t.lay.Bounds.Sub(t.bounds.Min)), t.lay.Pixels.X, t.lay.Pixels.Y, &m.out)
	}
	size := image.Pt(m.reduced.Width, m.reduced.Height)
	img := m.images.next(size)
	t.paint(img.Pix, m.reduced, t.view, r)
	views.DotMask(img.Pix, m.reduced)
	if t.Settings.Dotted() {
		views.DotLimits(img.Pix, m.reduced, t.Settings.Limits())
	}
	t.flip(img)
	return img
}
