package propose

import "app.tonedesk/analysis/colour"

// What keeps a shadow a colour that could be mixed (our choice): it stays nearly as muted as
// its local colour, and a little inside of what the display has, unless the base lies nearer
// to the edge itself.
const (
	mostChroma  = 1.15 // Oklch chroma, times the base's
	leastMargin = 0.02 // of the chroma at the gamut's edge, at the same Oklch lightness and hue
)

// mixture says which colours may be a shadow of a base.
type mixture struct {
	most   float64 // Oklch chroma
	margin float64 // share of the chroma at the gamut's edge
	floor  colour.RGB
}

// mixture returns which colours may be the base's shadow so many tones darker. The tint that
// a neutral's shadow gains comes on top.
func (m *maker) mixture(tones float64) mixture {
	return mixture{
		most:   mostChroma*m.Oklch.C + m.tint(tones)*m.base.Oklab.L,
		margin: m.margin,
		floor:  floorOf(m.base.Colour),
	}
}

// floorOf returns the least codes of a shadow of a colour: 1 in each channel that is not 0.
func floorOf(c colour.RGB) colour.RGB {
	return colour.RGB{R: min(c.R, 1), G: min(c.G, 1), B: min(c.B, 1)}
}

// marginOf returns how far a colour lies inside of the gamut, as a share of the chroma at
// its edge, but no more than leastMargin.
func marginOf(c colour.Oklab) float64 {
	if insideBy(c, leastMargin) {
		return leastMargin
	}
	return leastMargin * colour.Bisect(func(part float64) bool { return insideBy(c, part*leastMargin) })
}

// insideBy reports whether the display can show a colour with so much more chroma that the
// share that was there before is less by margin.
func insideBy(c colour.Oklab, margin float64) bool {
	return colour.Oklab{L: c.L, A: c.A / (1 - margin), B: c.B / (1 - margin)}.InGamut()
}

// holds reports whether a colour may be the shadow.
func (x *mixture) holds(c colour.Oklab) bool {
	return c.Chroma() <= x.most && insideBy(c, x.margin)
}

// holdsCode reports whether an 8-bit colour may be: as a colour that is shown, and with no
// channel at 0 but where the base has it.
func (x *mixture) holdsCode(c colour.RGB) bool {
	if c.R < x.floor.R || c.G < x.floor.G || c.B < x.floor.B {
		return false
	}
	return x.holds(colour.OklabOfCode(c))
}

// fit returns the colour that keeps the promise, with the hue and as much of the saturation
// as may be, and what held it back.
func (x *mixture) fit(s shine, p promise) (c colour.Oklab, note Note) {
	part := colour.Bisect(func(part float64) bool {
		t := s.times(part)
		return t.keeps(p) && x.holds(t.keeping(p))
	})
	const sameChroma = 1e-6 // far below what 8 bits can show
	switch c = s.times(part).keeping(p); {
	case part == 1:
		return c, AsMade
	case c.Chroma() > x.most-sameChroma:
		return c, AtMost
	}
	return c, AtEdge
}

// shadow returns the shadow so many tones darker, whose hue goes on in an order.
func (m *maker) shadow(tones float64, order *hueOrder) Step {
	p, ok := m.darker(tones)
	if !ok {
		return Step{Tones: tones, Note: NoRoom}
	}
	turn, x := shadowShift(m.Oklch.H, m.ShadowHue, m.Turn, tones), m.mixture(tones)
	order.to(turn)
	fitted, note := x.fit(m.shadowShine(tones, turn), p)
	code, made, ok := settleAmong(fitted, p, func(c colour.RGB) bool { return order.holds(c) && x.holdsCode(c) })
	if !ok {
		code, made, ok = settleAmong(fitted, p, x.holdsCode)
	}
	if !ok { // next to black, which is no mixture
		return Step{Tones: tones, Note: NoRoom}
	}
	order.took(code)
	return m.stepOf(tones, code, made, note)
}
