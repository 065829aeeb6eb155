package live

import (
	"image"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/views"
)

// Melting is a lost edge that the pointer is over, in the view of lost edges.
type Melting struct {
	Tones       float64
	Dark, Light colour.RGB // its sides
	// Places along the sides, in parts of the whole picture's width and height: what lies there names
	// them.
	DarkAt, LightAt []families.At
}

// meltingReach is how far from a lost edge the pointer is over it, in parts of the longer side of
// what the mirror shows: as far again as the line is wide (our choice).
const meltingReach = 1.0 / 80

// meltingUnder is the lost edge under the pointer; nil in another view, or where there is none. What
// it returns is valid until the next time.
func (w *Worker) meltingUnder(t *task) *Melting {
	if t.view.Key != views.LostEdges || !t.Looking || !t.Look.In(t.lay.Bounds) {
		return nil
	}
	part, found := t.lay.Bounds, views.LostEdgesOf(w.mirror.reduced)
	at := t.Look.Sub(part.Min)
	e := found.LostAt((float64(at.X)+0.5)/float64(part.Dx()), (float64(at.Y)+0.5)/float64(part.Dy()), meltingReach)
	if e == nil {
		return nil
	}
	m := &w.melting
	*m = Melting{
		Tones: e.Tones, Dark: e.Dark, Light: e.Light,
		DarkAt:  besideIn(m.DarkAt[:0], found, e, false, part, t.bounds),
		LightAt: besideIn(m.LightAt[:0], found, e, true, part, t.bounds),
	}
	return m
}

// besideIn appends the places on a side of an edge in a part of a picture, in parts of the whole.
func besideIn(list []families.At, found *edges.Found, e *edges.Edge, lighter bool, part, whole image.Rectangle) []families.At {
	found.Beside(e, lighter, func(x, y float64) {
		list = append(list, families.At{
			X: (float64(part.Min.X-whole.Min.X) + x*float64(part.Dx())) / float64(whole.Dx()),
			Y: (float64(part.Min.Y-whole.Min.Y) + y*float64(part.Dy())) / float64(whole.Dy()),
		})
	})
	return list
}
