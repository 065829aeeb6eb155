package light

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// Direction is where a picture's light seems to come from, in its plane: how far from the front or
// from behind is not known.
type Direction struct {
	Degrees     float64 `json:"degrees"`     // 0 from the right, 90 from above, [0, 360)
	Resultant   float64 `json:"resultant"`   // mean resultant length of the forms that agree with it, 0 to 1 (CIRCULAR)
	Uncertainty float64 `json:"uncertainty"` // degrees: its standard error
	Forms       int     `json:"forms"`       // how many bear it out
}

// formError is the standard deviation, in degrees, of the direction that a single form shows: what
// its outline adds to the light (14 to 16 on painted scenes of open seeds).
const formError = 15.0

// direct fills in the direction and how the forms stand to it.
func (l *Light) direct() {
	all := l.Lightings()
	var told []*Lighting // those that say from where their light comes
	for _, f := range all {
		if f.Verdict == FormAgrees {
			told = append(told, f)
		}
	}
	d, ok := l.directionOf(told)
	if !ok {
		for _, f := range all {
			f.Verdict = Unsure
		}
		return
	}
	l.Direction = &d
	for _, f := range told {
		if degreesApart(f.Degrees, d.Degrees) >= l.Options.MostDegreesOff {
			f.Verdict = Elsewhere
		}
	}
}

// nearest returns the forms within the limit of that angle, in whole degrees, which the most weight
// lies near. So what is lit from elsewhere doesn't pull at the direction.
func (l *Light) nearest(told []*Lighting) (near []*Lighting) {
	most := 0.0
	for degrees := range 360 {
		if around, weight := l.within(told, float64(degrees)); weight > most {
			near, most = around, weight
		}
	}
	return near
}

// within returns the forms within the limit of an angle, and their weight, by how near they lie: the
// kernel of which the mean is the middle (Epanechnikov 1969, from memory).
func (l *Light) within(told []*Lighting, angle float64) (near []*Lighting, weight float64) {
	var weights []float64
	for _, f := range told {
		if off := degreesApart(f.Degrees, angle) / l.Options.MostDegreesOff; off < 1 {
			near = append(near, f)
			weights = append(weights, f.weight()*(1-off*off))
		}
	}
	return near, sumOf(weights)
}

// directionOf returns the mean direction of the forms that lie near each other; ok is false where
// they are too few beside all that say one: two at least, and more of the weight than the option
// says, so that of two halves that contradict each other neither counts.
func (l *Light) directionOf(told []*Lighting) (d Direction, ok bool) {
	near := l.nearest(told)
	var all, weights, across, up, squares []float64
	for _, f := range told {
		all = append(all, f.weight())
	}
	for _, f := range near {
		sin, cos := math.Sincos(f.Degrees * math.Pi / 180)
		w := f.weight()
		weights, squares = append(weights, w), append(squares, w*w)
		across, up = append(across, w*cos), append(up, w*sin)
	}
	weight := sumOf(weights)
	if len(near) == 0 || len(near) < min(2, len(all)) || weight <= l.Options.OneLightFrom*sumOf(all) {
		return d, false
	}
	x, y := sumOf(across), sumOf(up)
	d = Direction{Degrees: colour.Degrees(y, x), Resultant: min(1, math.Hypot(x, y)/weight), Forms: len(near)}
	count := weight * weight / sumOf(squares) // of forms that weigh the same and say as much
	deviation := math.Sqrt(-2*math.Log(d.Resultant)) * 180 / math.Pi
	d.Uncertainty = max(deviation, formError) / math.Sqrt(count)
	return d, true
}

// degreesApart returns how far two angles are apart, 0 to 180 degrees.
func degreesApart(a, b float64) float64 { return math.Abs(math.Remainder(a-b, 360)) }
