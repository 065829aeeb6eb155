package propose

import (
	"encoding/json"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

const (
	lineSteps = 3
	lineFrom  = 3 // tones
)

// Line is a proposed colour for the line around a fill.
type Line struct {
	Step
	MayVanish bool // the fill is so light that its line may vanish under strong light
}

// MarshalJSON writes the line as one object, as a step with may_vanish.
func (l Line) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		stepFields
		MayVanish bool `json:"may_vanish"`
	}{l.Step.fields(), l.MayVanish})
}

// How a line's hue turns, in Oklch degrees (common practice, no source): skin has red-brown
// lines, pink maroon, yellow brown, blue deep violet.
const (
	lineTurnMost = 46.0  // a line keeps nearer to its fill than a deep shadow does; pure yellow's gets brown
	lineRed      = 28.0  // warm hues turn no farther down than to this red
	pinkFrom     = 345.0 // pinks, from here to lineRed, keep their hue
	pinkFades    = 45.0  // and below them the turn grows over so many degrees
)

// lines fills in the lines.
func (m *maker) lines(s *Shades) {
	vanish := analysis.AsPrinted(m.base.Value) > families.DefaultRules().VanishAbove
	for i := range s.Lines {
		tones := float64(lineFrom + i)
		turn := m.lineTurn(tones)
		step := m.step(tones, m.shadowShine(tones, turn*m.partOfTurn(tones, turn)), m.keepSaturation)
		s.Lines[i] = Line{Step: step, MayVanish: vanish}
	}
}

// turnParts is in how many parts a turn is looked through.
const turnParts = 32

// partOfTurn returns the largest part of a line's turn with which it can be as saturated as
// its fill, or as the settings ask for, if that is less: where the full turn runs into the
// gamut's edge, saturation goes before it. Without a turn there is always room, since a
// colour that is shown can be shown darker.
func (m *maker) partOfTurn(tones, turn float64) float64 {
	value := m.base.Value - tones
	if value <= 0 {
		return 1
	}
	p := promise{ByLightness, colour.Lightness(colour.YOfValue(value))}
	saturation := m.saturation() * min(1, math.Pow(1+m.Gain, tones))
	keeps := func(part float64) bool { return shineOf(m.Oklch.H+part*turn, saturation).keeps(p) }
	if keeps(1) {
		return 1
	}
	for i := turnParts - 1; ; i-- {
		if from := float64(i) / turnParts; i == 0 || keeps(from) {
			return from + colour.Bisect(func(part float64) bool { return keeps(from + part/turnParts) })/turnParts
		}
	}
}

// keepSaturation returns the code of a line, or, where rounding made it less saturated than
// its fill, the best code around that isn't; where there is none, one that is less so.
func (m *maker) keepSaturation(code colour.RGB, made colour.Oklab, p promise) colour.RGB {
	if families.DefaultRules().Neutral(m.base) {
		return code
	}
	rounded := colour.Saturation(colour.OklabOfCode(code))
	for least := min(m.saturation(), colour.Saturation(made)); rounded < least; least *= 0.98 {
		other, miss := p.nearestAround(made, 2, func(c colour.RGB) bool { return colour.Saturation(colour.OklabOfCode(c)) >= least })
		if miss <= 1 {
			return other
		}
	}
	return code
}

// lineTurn returns how far the hue of a line turns, so many tones below its fill: as in the
// shadow ramp, but by no more than lineTurnMost, and downwards no farther than to red.
func (m *maker) lineTurn(tones float64) float64 {
	hue := m.Oklch.H
	turn := shadowShift(hue, m.ShadowHue, m.Turn, tones)
	turn = max(-lineTurnMost, min(turn, lineTurnMost))
	if turn >= 0 {
		return turn
	}
	switch {
	case hue <= lineRed || hue >= pinkFrom:
		return 0
	case hue <= warmTo:
		return max(turn, lineRed-hue)
	}
	return turn * min((pinkFrom-hue)/pinkFades, 1)
}
