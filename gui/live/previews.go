package live

import (
	"image"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/settings"
)

// PreviewsEvery is the least time between two renewals of the views' previews (our choice: they
// are to choose by, not to watch).
const PreviewsEvery = time.Second

// previews paints the picture small in every view, while that is wanted.
type previews struct {
	reducer *reduce.Reducer
	room    image.Point // that was wanted last; none while nobody looks
	painted settings.Settings
	at      time.Time
	late    bool // something has changed since
}

// look returns the picture in every view, in their order, as images that belong to whoever gets
// them; nil where nobody looks, nothing has changed, or it is too soon: then it comes back.
func (p *previews) look(w *Worker, t *task, r *analysis.Reading) []*image.RGBA {
	if t.Previews == (image.Point{}) {
		p.room, p.late = image.Point{}, false
		return nil
	}
	opened := p.room != t.Previews
	p.room = t.Previews
	p.late = p.late || opened || !t.same.reading || p.otherwise(t.Settings)
	if !p.late {
		return nil
	}
	if wait := PreviewsEvery - w.now().Sub(p.at); !opened && wait > 0 {
		w.owner.Again(wait)
		return nil
	}
	p.at, p.late, p.painted = w.now(), false, t.Settings
	return p.paint(t, r)
}

// otherwise reports whether a view looks otherwise than it was painted.
func (p *previews) otherwise(s settings.Settings) bool {
	if s.Flipped != p.painted.Flipped || s.Edges != p.painted.Edges {
		return true
	}
	for _, v := range views.All() {
		if s.Knob(v) != p.painted.Knob(v) {
			return true
		}
	}
	return false
}

// paint paints all views.
func (p *previews) paint(t *task, r *analysis.Reading) []*image.RGBA {
	size := within(t.bounds.Size(), p.room)
	small := p.reducer.Reduce(t.pixels, size.X, size.Y, nil)
	all := views.All()
	images := make([]*image.RGBA, len(all))
	for i, v := range all {
		images[i] = image.NewRGBA(image.Rect(0, 0, small.Width, small.Height))
		t.paint(images[i].Pix, small, v, r)
		t.flip(images[i])
	}
	return images
}

// within returns the largest size of a picture's proportion in a room, no larger than it is.
func within(picture, room image.Point) image.Point {
	by := min(1, float64(room.X)/float64(picture.X), float64(room.Y)/float64(picture.Y))
	return image.Pt(max(int(float64(picture.X)*by+0.5), 1), max(int(float64(picture.Y)*by+0.5), 1))
}
