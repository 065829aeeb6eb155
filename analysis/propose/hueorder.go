package propose

import (
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// hueOrder keeps the hues of a ramp's 8-bit codes in order: where a hue turns by little, the
// steps of the codes may be wider than its turn, and rounding alone would turn it back.
type hueOrder struct {
	hue  float64 // the base's, Oklch degrees
	turn float64 // of the colour as made, from the base
	last float64 // of the code before
}

// order returns the order of a ramp from the base; nil for a base without hue to speak of.
func (m *maker) order() *hueOrder {
	if families.DefaultRules().Neutral(m.base) {
		return nil
	}
	return &hueOrder{hue: m.Oklch.H}
}

// to goes on to the next step, whose hue is turned by so much from the base's.
func (o *hueOrder) to(turn float64) *hueOrder {
	if o != nil {
		o.turn = turn
	}
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
	if o == nil {
		return code
	}
	if !o.holds(code) {
		if other, miss := p.nearestOf(made, o.holds); miss <= 1 {
			code = other
		}
	}
	if !code.Neutral() {
		o.last = o.turnOf(code)
	}
	return code
}

// nearestOf returns the best code up to two around a colour as made of those that are wanted,
// and its miss: infinite if there is none.
func (p promise) nearestOf(made colour.Oklab, wanted func(colour.RGB) bool) (best colour.RGB, least float64) {
	const reach = 2
	red, green, blue := made.Light()
	lab := colour.LabOf(inside(red), inside(green), inside(blue))
	r, g, b := around(colour.Encode(red), reach), around(colour.Encode(green), reach), around(colour.Encode(blue), reach)
	least = math.Inf(1)
	for i := r.from; i <= r.to; i++ {
		for j := g.from; j <= g.to; j++ {
			for k := b.from; k <= b.to; k++ {
				near := colour.RGB{R: uint8(i), G: uint8(j), B: uint8(k)}
				if miss := p.miss(near, lab, least); miss < least && wanted(near) {
					best, least = near, miss
				}
			}
		}
	}
	return best, least
}
