package views

import "math"

// Knob is what can be set about a view: a number in even steps.
type Knob struct {
	Name     string  // for the window: "Bands"
	Unit     string  // "%"; empty for a plain number
	From, To float64 // the range, both ends included, above 0
	Step     float64 // from one position to the next, above 0
	Start    float64 // where it stands until it is moved
}

// At returns the position nearest to v: v cut to the range and put on a step. 0 is the
// start, so that a Look that says nothing shows a view as it starts; so is NaN.
func (k *Knob) At(v float64) float64 {
	if v == 0 || math.IsNaN(v) {
		return k.Start
	}
	v = max(k.From, min(v, k.To))
	return min(k.From+k.Step*math.Round((v-k.From)/k.Step), k.To)
}
