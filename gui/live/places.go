package live

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/setup"
)

// FamilyReading is what a family set by hand reads, or why it can't be read.
type FamilyReading struct {
	families.Family
	Turned bool // the first place is darker than the second: they change sides
	Err    error
}

// readFamilies reads the families set by hand, as spots are read. Which of two places is
// the light side is what the picture says now.
func (w *Worker) readFamilies(p analysis.Pixels, origin image.Point, next Wanted) {
	w.Done.Hand = w.Done.Hand[:0]
	for _, f := range next.Setup.Families {
		light, shadow := readPlace(p, f.Light, origin, next), readPlace(p, f.Shadow, origin, next)
		var r FamilyReading
		switch {
		case light.Err != nil:
			r.Err = light.Err
		case shadow.Err != nil:
			r.Err = shadow.Err
		default:
			if r.Turned = light.Lightness < shadow.Lightness; r.Turned {
				light, shadow = shadow, light
			}
			r.Family = families.Of(light.Spot, shadow.Spot, next.Settings.Rules)
		}
		w.Done.Hand = append(w.Done.Hand, r)
	}
}

// readPlace reads one place.
func readPlace(p analysis.Pixels, at setup.Place, origin image.Point, next Wanted) (r Reading) {
	if at.Area.Empty() {
		q := at.At.Sub(origin)
		r.Spot, r.Err = analysis.ReadSpot(p, q.X, q.Y, next.Settings.SpotSize)
		return r
	}
	r.Spot, r.Err = analysis.ReadArea(p, at.Area.Sub(origin))
	return r
}

// Reading is a spot's reading, or why there is none.
type Reading struct {
	analysis.Spot
	Err error
}

// readSpots reads every spot in the frame.
func (w *Worker) readSpots(p analysis.Pixels, origin image.Point, next Wanted) {
	w.Done.Spots = w.Done.Spots[:0]
	for _, at := range next.Setup.Places {
		w.Done.Spots = append(w.Done.Spots, readPlace(p, at, origin, next))
	}
}
