package gui

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
)

// handReading is what a family set by hand reads, or why it can't be read.
type handReading struct {
	families.Family
	Turned bool // the first place is darker than the second: they change sides
	Err    error
}

// readFamilies reads the families set by hand, as spots are read. Which of two places is
// the light side is what the picture says now.
func (w *worker) readFamilies(p analysis.Pixels, origin image.Point, next wanted) {
	w.done.hand = w.done.hand[:0]
	for _, f := range next.setup.Families {
		light, shadow := readPlace(p, f.Light, origin, next), readPlace(p, f.Shadow, origin, next)
		var r handReading
		switch {
		case light.Err != nil:
			r.Err = light.Err
		case shadow.Err != nil:
			r.Err = shadow.Err
		default:
			if r.Turned = light.Lightness < shadow.Lightness; r.Turned {
				light, shadow = shadow, light
			}
			r.Family = families.Of(light.Spot, shadow.Spot, next.settings.Rules)
		}
		w.done.hand = append(w.done.hand, r)
	}
}

// readPlace reads one place.
func readPlace(p analysis.Pixels, at place, origin image.Point, next wanted) (r reading) {
	if at.Area.Empty() {
		q := at.At.Sub(origin)
		r.Spot, r.Err = analysis.ReadSpot(p, q.X, q.Y, next.settings.SpotSize)
		return r
	}
	r.Spot, r.Err = analysis.ReadArea(p, at.Area.Sub(origin))
	return r
}

// reading is a spot's reading, or why there is none.
type reading struct {
	analysis.Spot
	Err error
}

// readSpots reads every spot in the frame.
func (w *worker) readSpots(p analysis.Pixels, origin image.Point, next wanted) {
	w.done.spots = w.done.spots[:0]
	for _, at := range next.setup.Places {
		w.done.spots = append(w.done.spots, readPlace(p, at, origin, next))
	}
}
