package propose

import (
	"encoding/json"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

const (
	rampSteps  = 3
	lightSteps = 2
)

// Step is a proposed colour, some tones away from its base, or the word that there is none.
type Step struct {
	Tones float64        // value of the base minus value of the step: above 0 is darker
	Spot  *analysis.Spot // the reading of the 8-bit colour; nil if there is no room
	Note  Note

	// As in a family with base and step for light and shadow, but for a light the base is the
	// shadow's part: from base to step, nil where it can't be known.
	HueTurn        *float64
	SaturationGain *float64

	Made colour.Oklab // the colour before rounding to 8 bits
}

// MarshalJSON writes the step's spot and figures as one object; without room, colour,
// lightness and the rest are null.
func (s Step) MarshalJSON() ([]byte, error) { return json.Marshal(s.fields()) }

// stepFields are the JSON names of a step.
type stepFields struct {
	TonesBelow float64 `json:"tones_below"`
	spotFields
	HueTurn        *float64 `json:"hue_turn"`        // Oklch, degrees, (-180, 180]
	SaturationGain *float64 `json:"saturation_gain"` // the step's over the base's, minus 1
	Note           Note     `json:"outcome"`         // one of the Notes
}

func (s Step) fields() stepFields {
	return stepFields{s.Tones, spotFieldsOf(s.Spot), s.HueTurn, s.SaturationGain, s.Note}
}

// roundTheCircle returns a hue in [0, 360).
func roundTheCircle(hue float64) float64 {
	hue = math.Mod(hue, 360)
	if hue < 0 {
		hue += 360
	}
	if hue >= 360 { // -1e-20 + 360
		hue = 0
	}
	return hue
}

// neutralTint is the saturation that a colour without hue gains per tone in the shadow, in
// the shadow's hue; a colour of C*ab 8 and more gains none, in between it fades (common
// practice, no source: a white cloth has a tinted shadow).
const neutralTint = 0.015

// ramp fills in the shadow ramp, the lights and the way straight toward black.
func (m *maker) ramp(s *Shades) {
	shadows, lights := m.order(), m.order()
	for i := range s.Ramp {
		tones := float64(i + 1)
		s.Ramp[i] = m.shadow(tones, shadows)
		s.BlackRamp[i] = m.step(tones, shineOf(m.Oklch.H, m.saturation()), nil)
	}
	toLight := lightTurn * m.Turn / DefaultTurn * wayToLight(m.Oklch.H, m.ShadowHue)
	perTone := max(-lightTurnMost, min(toLight, lightTurnMost))
	for i := range s.Lights {
		tones := float64(i + 1)
		turn := perTone * tones
		lighter := shineOf(m.Oklch.H+turn, m.saturation()/math.Pow(1+lightLoss+m.Gain, tones))
		s.Lights[i] = m.step(-tones, lighter, lights.to(turn).keep)
	}
}

// shadowShine returns the hue and saturation of a shadow so many tones darker.
func (m *maker) shadowShine(tones, turn float64) shine {
	s := shineOf(m.Oklch.H+turn, m.saturation()*math.Pow(1+m.Gain, tones))
	tint := shineOf(m.ShadowHue, m.tint(tones))
	return shine{s.a + tint.a, s.b + tint.b}
}

// tint returns the saturation of the tint that a shadow so many tones darker has.
func (m *maker) tint(tones float64) float64 {
	return max(0, 1-m.base.Chroma/families.DefaultRules().LeastChroma) * neutralTint * tones
}

// step returns the colour so many tones darker than the base, with the hue and as much of
// the saturation as the display can show. keep, unless it is nil, may choose another 8-bit code.
func (m *maker) step(tones float64, s shine, keep func(colour.RGB, colour.Oklab, promise) colour.RGB) Step {
	p, ok := m.darker(tones)
	if !ok {
		return Step{Tones: tones, Note: NoRoom}
	}
	made, whole, ok := s.fit(p)
	if !ok {
		return Step{Tones: tones, Note: NoRoom}
	}
	code, made := settle(made, p)
	if keep != nil {
		code = keep(code, made, p)
	}
	note := AsMade
	if !whole {
		note = AtEdge
	}
	return m.stepOf(tones, code, made, note)
}

// darker returns the promise to be so many tones darker than the base; ok is false if there
// is no such lightness.
func (m *maker) darker(tones float64) (p promise, ok bool) {
	value := m.base.Value - tones
	return promise{ByLightness, colour.Lightness(colour.YOfValue(value))}, value >= 0 && value <= colour.Steps
}

// stepOf returns the step of a code.
func (m *maker) stepOf(tones float64, code colour.RGB, made colour.Oklab, note Note) Step {
	step := Step{Tones: tones, Spot: new(analysis.SpotOf(code)), Note: note, Made: made}
	m.measure(&step)
	return step
}

// measure writes hue turn and saturation gain from the base to the step's 8-bit colour.
func (m *maker) measure(step *Step) {
	rules := families.DefaultRules()
	if rules.Neutral(m.base) {
		return
	}
	if step.Spot.Oklab.L > 0 {
		step.SaturationGain = new(colour.Saturation(step.Spot.Oklab)/m.saturation() - 1)
	}
	if !rules.Neutral(*step.Spot) {
		step.HueTurn = new(families.TurnBetween(m.Oklch.H, step.Spot.Oklab.Hue()))
	}
}

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
	return o.none || o.turn == 0 || !c.Neutral() && (o.turnOf(c)-o.last)*o.turn >= 0
}

// took goes on from a code.
func (o *hueOrder) took(c colour.RGB) {
	if !o.none && !c.Neutral() {
		o.last = o.turnOf(c)
	}
}

// keep returns code if it is in order, otherwise the best code around the colour as made that
// is and keeps the promise; code, if there is none.
func (o *hueOrder) keep(code colour.RGB, made colour.Oklab, p promise) colour.RGB {
	if !o.holds(code) {
		if other, miss := p.nearestAround(made, 2, o.holds); miss <= 1 {
			code = other
		}
	}
	o.took(code)
	return code
}
