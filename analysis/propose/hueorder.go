package propose

import (
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// hueOrder keeps the hues of a ramp's 8-bit codes in order: where a hue turns by little, the
// steps of the codes may be wider than its turn, and rounding alone would turn it back.
type hueOrder struct {
	none bool    // the base has no hue to speak of: any code will do
	hue  float64 // the base's, Oklch degrees
	turn float64 // of the colour as made, from the base
	last float64 // of the code before
}

// order returns the order of a ramp from the base.
func (m *maker) order() *hueOrder {
	return &hueOrder{none: families.DefaultRules().Neutral(m.base), hue: m.Oklch.H}
}

// to goes on to the next step, whose hue is turned by so much from the base's.
func (o *hueOrder) to(turn float64) *hueOrder {
	o.turn = turn
	return o
}

// turnOf returns how far a code's hue is turned from the base's, counted the way of the
// colour as made.
func (o *hueOrder) turnOf(c colour.RGB) float64 {
	return o.turn + families.TurnBetween(o.hue+o.turn, colour.OklabOfCode(c).Hue())
}

// holds reports whether a code turns on from the one before, or stays.
func (o *hueOrder) holds(c colour.RGB) bool {
	return o.turn == 0 || !c.Neutral() && (o.turnOf(c)-o.last)*o.turn >= 0
}

// keep returns code if it is in order, otherwise the best code around the colour as made that
// is and keeps the promise; code, if there is none.
func (o *hueOrder) keep(code colour.RGB, made colour.Oklab, p promise) colour.RGB {
	if o.none {
		return code
	}
	if !o.holds(code) {
		if other, miss := p.nearestAround(made, 2, o.holds); miss <= 1 {
			code = other
		}
	}
	if !code.Neutral() {
		o.last = o.turnOf(code)
	}
	return code
}
