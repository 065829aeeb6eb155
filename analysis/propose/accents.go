package propose

import (
	"encoding/json"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// AccentHues is how many hues a row of accents has, evenly spread from Oklch hue 0.
const AccentHues = 24

const suggestedAccents = 3

// Accent is a proposed core-shadow accent: another hue as light as its base, in lightness or
// what else counts as equal.
type Accent struct {
	Hue     float64        // Oklch, degrees: the hue asked for
	Spot    *analysis.Spot // the reading of the 8-bit colour; nil if nothing is as light as that
	InGamut bool           // the display reaches the chroma asked for; at the gamut's edge always
	Note    Note

	Made colour.Oklab // the colour before rounding to 8 bits
}

// MarshalJSON writes the accent as one object: the spot, and the hue asked for with the
// chroma of Oklch, which the accent was made with.
func (a Accent) MarshalJSON() ([]byte, error) {
	var chroma *float64
	if a.Spot != nil {
		chroma = new(a.Spot.Oklab.Chroma())
	}
	return json.Marshal(struct {
		OklchHue float64 `json:"oklch_hue"` // degrees, as asked for
		spotFields
		OklchChroma *float64 `json:"oklch_chroma"` // of the 8-bit colour
		InGamut     bool     `json:"in_gamut"`
		Note        Note     `json:"outcome"`
	}{a.Hue, spotFieldsOf(a.Spot), chroma, a.InGamut, a.Note})
}

// accents fills in both rows and the suggested accents.
func (m *maker) accents(s *Shades) {
	p := promiseOf(m.base, m.EqualBy)
	for i := range s.Accents {
		hue := 360.0 / AccentHues * float64(i)
		s.Accents[i] = m.accent(hue, m.AccentChroma, p)
		made, _, ok := shineOf(hue, fullSaturation).fit(p)
		s.FullAccents[i] = settledAccent(hue, made, p, ok, ok)
	}
	s.Suggested = make([]Accent, 0, suggestedAccents)
	for _, turn := range m.suggestedTurns() {
		hue := roundTheCircle(m.Oklch.H + turn)
		s.suggest(m.accent(hue, max(m.AccentChroma, m.Oklch.C), p))
	}
}

// suggest adds an accent, unless its colour is suggested already: near black and white there
// are few colours.
func (s *Shades) suggest(a Accent) {
	for _, b := range s.Suggested {
		if a.Spot == nil || b.Spot != nil && b.Spot.Colour == a.Spot.Colour {
			return
		}
	}
	s.Suggested = append(s.Suggested, a)
}

// neighbour is how far apart, in degrees, two hues are at least to be told apart as an
// accent beside its surroundings (common practice, no source).
const neighbour = 25.0

// accentTurn is which part of the way to the shadow's hue the first suggested accent turns
// (common practice, no source).
const accentTurn = 0.25

// suggestedTurns returns how far the suggested accents are turned: one, two and three
// quarters of the way to the shadow's hue, but at least so far that they are seen as accents,
// and never past the shadow's hue by it. Where the base has the shadow's hue, or none, the
// neighbours on both sides are suggested.
func (m *maker) suggestedTurns() [suggestedAccents]float64 {
	way := wayToShadow(m.Oklch.H, m.ShadowHue)
	if m.base.Colour.Neutral() {
		return [...]float64{0, -neighbour, neighbour}
	}
	if math.Abs(way) < suggestedAccents*neighbour {
		towards := math.Copysign(neighbour, way)
		return [...]float64{towards, -towards, 2 * towards}
	}
	turn := math.Copysign(max(neighbour, math.Abs(way)*accentTurn), way)
	return [...]float64{turn, 2 * turn, 3 * turn}
}

// accent returns the colour of a hue, in Oklch degrees, that keeps the promise, at a chroma
// or as much of it as the display can show.
func (m *maker) accent(hue, chroma float64, p promise) Accent {
	made, whole, ok := fitChroma(hue, chroma, p)
	return settledAccent(hue, made, p, whole, ok)
}

func settledAccent(hue float64, made colour.Oklab, p promise, whole, ok bool) Accent {
	if !ok {
		return Accent{Hue: hue, Note: NoRoom}
	}
	code, made := settle(made, p)
	a := Accent{Hue: hue, Spot: new(analysis.SpotOf(code)), InGamut: whole, Made: made}
	if !whole {
		a.Note = AtEdge
	}
	return a
}

// Brought is one of two spots, B, brought to the lightness of the other, A.
type Brought struct {
	A       analysis.Spot `json:"a"`
	B       analysis.Spot `json:"b"`
	Matched analysis.Spot `json:"matched"` // B's hue and as much of its chroma as fits, at A's lightness

	Note Note         `json:"outcome"` // AsMade, or AtEdge where some chroma had to go
	Made colour.Oklab `json:"-"`       // the colour before rounding to 8 bits
}

// Bring returns b brought to a's lightness: L* within 0.2, b's Oklch hue, and as much of its
// chroma as the display can show there. For the other way, swap the two.
func Bring(a, b analysis.Spot) Brought {
	p := promiseOf(a, ByLightness)
	c := b.Oklab.Oklch()
	if b.Colour.Neutral() {
		c.C = 0
	}
	made, whole, _ := fitChroma(c.H, c.C, p)
	code, made := settle(made, p)
	brought := Brought{A: a, B: b, Matched: analysis.SpotOf(code), Made: made}
	if !whole {
		brought.Note = AtEdge
	}
	return brought
}
