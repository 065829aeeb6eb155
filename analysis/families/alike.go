package families

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// Limits for what may be a light and its shadow, before all that a picture has is weighed
// (found on drawn scenes; no source).
const (
	leastApart = 4.0  // L* between the sides
	leastSoft  = 5.0  // L* between the sides of a smooth form
	mostApart  = 60.0 // L* between the sides
	leastEdge  = 0.6  // of the common edge over the root of the smaller side
	hueChroma  = 10.0 // C*ab from which on a hue counts
	mostTurn   = 65.0 // degrees of Oklch's hue
	sharpStep  = 0.7  // part of the way from side to side that lies in a sharp edge, at least
)

// hueScore says how well two colours agree in hue, 0 for not at all, 1 for fully.
func hueScore(p, q colour.Lab) float64 {
	if min(p.Chroma(), q.Chroma()) >= hueChroma {
		turn := math.Abs(TurnBetween(p.Oklab().Hue(), q.Oklab().Hue()))
		if turn > mostTurn {
			return 0
		}
		return 1 - turn/mostTurn/2
	}
	off := math.Hypot(p.A-q.A, p.B-q.B)
	return 1 / (1 + off*off/400)
}

// alike reports whether two areas, the lighter first, may be one local colour's light and
// shadow by their colours alone.
func (f *Finder) alike(light, shadow int32) bool {
	p, q := f.areas.list[light].mean(), f.areas.list[shadow].mean()
	return p.L-q.L >= leastApart && hueScore(p, q) > 0
}
