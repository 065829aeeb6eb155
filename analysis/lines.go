package analysis

import "encoding/json"

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
	lineTurnMost = 40.0  // a line keeps nearer to its fill than a deep shadow does
	lineRed      = 28.0  // warm hues turn no farther down than to this red
	pinkFrom     = 345.0 // pinks, from here to lineRed, keep their hue
	pinkFades    = 45.0  // and below them the turn grows over so many degrees
)

// lines fills in the lines.
func (m *maker) lines(s *Shades) {
	vanish := AsPrinted(m.base.Value) > DefaultFamilyRules().VanishAbove
	for i := range s.Lines {
		tones := float64(lineFrom + i)
		step := m.step(tones, m.shadowShine(tones, m.lineTurn(tones)), nil)
		s.Lines[i] = Line{Step: step, MayVanish: vanish}
	}
}

// lineTurn returns how far the hue of a line turns, so many tones below its fill: as in the
// shadow ramp, but by no more than lineTurnMost, and downwards no farther than to red.
func (m *maker) lineTurn(tones float64) float64 {
	hue, way := m.Oklch.H, wayToShadow(m.Oklch.H, m.ShadowHue)
	turn := way * min(m.Turn*tones, 1)
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
