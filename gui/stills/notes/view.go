package notes

import (
	"image"
	"math"

	"app.tonedesk/gui/stills/ink"
)

// View says how a still lies in the picture that notes are drawn on, and what of them is
// shown. "Drawn pixels" are that picture's. The still's place p lies at (p - Origin) *
// Scale.
type View struct {
	Origin Point   // in still pixels
	Scale  float64 // drawn pixels for a still's pixel; above 0

	Pixel    float64         // drawn pixels for one unit of what doesn't scale: rims, rings of spots; 0 counts as 1
	Letters  float64         // size of numbers and readings in drawn pixels; 0 counts as 13 units
	Numbers  bool            // whether notes that say something have their number beside them
	Readings bool            // whether spots have their reading beside them
	Selected string          // ID of a note that is drawn with a double rim; "" for none
	Inside   image.Rectangle // where numbers and readings are kept, in drawn pixels; empty: anywhere
}

func (v View) pixel() float64 {
	if !(v.Pixel > 0) {
		return 1
	}
	return v.Pixel
}

func (v View) letters() float64 {
	if !(v.Letters > 0) {
		return 13 * v.pixel()
	}
	return v.Letters
}

// To returns where a still's place lies, in drawn pixels.
func (v View) To(p Point) Point { return p.Minus(v.Origin).Times(v.Scale) }

// From returns the still's place that lies at p, in drawn pixels, rounded to hundredths of a
// still's pixel, so that what is written down stays readable.
func (v View) From(p Point) Point {
	q := p.Times(1 / v.Scale).Plus(v.Origin)
	return ink.Pt(math.Round(100*q.X)/100, math.Round(100*q.Y)/100)
}

// Marks returns what is drawn of notes, lowest first: areas, then the others in their
// order, then their numbers. Several areas of a side share a mark.
func (v View) Marks(list []Note) []ink.Mark {
	p := &pen{view: v}
	numbers := make([]int, len(list))
	if v.Numbers {
		numbers = Numbers(list)
	}
	for i, n := range list {
		p.note(n, numbers[i])
	}
	return p.all()
}

// Bounds returns the drawn pixels that notes may touch, but for their numbers.
func (v View) Bounds(list ...Note) image.Rectangle {
	v.Numbers = false
	var r image.Rectangle
	marks := v.Marks(list)
	for i := range marks {
		r = r.Union(marks[i].Bounds())
	}
	return r
}

// BoundsIn returns the drawn pixels that one note of a list may touch, with its number.
func (v View) BoundsIn(list []Note, i int) image.Rectangle {
	number := 0
	if v.Numbers {
		number = Numbers(list[:i+1])[i]
	}
	p := &pen{view: v}
	p.note(list[i], number)
	var r image.Rectangle
	for _, m := range p.all() {
		r = r.Union(m.Bounds())
	}
	return r
}

// Top returns the index of the topmost note at p, or no further from it than reach, both
// in drawn pixels; -1 if there is none. Areas lie under all other notes.
func (v View) Top(list []Note, p Point, reach float64) int {
	v.Numbers = false
	top, area := -1, -1
	for i, n := range list {
		for _, m := range v.Marks([]Note{n}) {
			if !m.Hit(p, reach) {
				continue
			}
			if _, ok := n.Shape.(Area); ok {
				area = i
			} else {
				top = i
			}
		}
	}
	if top < 0 {
		return area
	}
	return top
}
