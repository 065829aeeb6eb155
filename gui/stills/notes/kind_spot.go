package notes

import (
	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills/ink"
)

// Spot is a sampled place with its reading, as it was when it was taken.
type Spot struct {
	At      ink.Point     `json:"at"`
	Reading analysis.Spot `json:"reading"`
}

// spotRadius is that of a spot's ring, in pixels of what is drawn on: a spot is a place,
// whatever the scale.
const spotRadius = 7

func (s Spot) Moved(way ink.Point) Shape {
	s.At = s.At.Plus(way)
	return s
}

func (s Spot) fine() bool { return s.At.Fine() }

func (s Spot) draw(p *pen, _ string) {
	at, r := p.at(s.At), spotRadius*p.view.Pixel
	p.ring(at, r, 1.5*p.view.Pixel)
	number := p.number(at.Minus(ink.Pt(0.7*r, 0.7*r))) // outside the ring
	if p.worded {
		p.beside(s.beside(), at, 1.6*r, number)
	}
}

// beside is what stands beside the ring.
func (s Spot) beside() string { return language.Say("value %s¦drawn", tenth(s.Reading.Value)) }

// Say returns the reading in words: lightness and value.
func (s Spot) Say() string {
	return language.Say("lightness %s, value %s", tenth(s.Reading.Lightness), tenth(s.Reading.Value))
}

// tenth writes a number with one decimal, as everything measured is shown.
func tenth(v float64) string { return language.Number(analysis.AsPrinted(v), 1) }
