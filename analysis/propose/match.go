package propose

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// Brought is one of two spots, B, brought to the lightness of the other, A.
type Brought struct {
	A       analysis.Spot `json:"a"`
	B       analysis.Spot `json:"b"`
	Matched analysis.Spot `json:"matched"` // B's hue and as much of its chroma as fits, at A's lightness

	Note Note         `json:"note"` // "", or "gamut's edge" where some chroma had to go
	Made colour.Oklab `json:"-"`    // the colour before rounding to 8 bits
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
