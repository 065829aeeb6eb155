package notes

import (
	"image"

	"app.tonedesk/gui/stills/ink"
)

// LettersUnits is the size of numbers and readings, in units of View.Pixel.
const LettersUnits = 13

// View says how a still lies in the picture that notes are drawn on, and what of them is
// shown. "Drawn pixels" are that picture's. The still's place p lies at (p - Origin) *
// Scale.
type View struct {
	Origin ink.Point // in still pixels
	Scale  float64   // drawn pixels for a still's pixel; above 0

	Pixel    float64         // drawn pixels for one unit of what doesn't scale: rims, rings of spots, letters; above 0
	Selected string          // ID of a note that is drawn with a double rim; "" for none
	Inside   image.Rectangle // where numbers and readings are kept, in drawn pixels; empty: anywhere
	Still    image.Point     // size of the still, in its pixels: labels are kept on it; zero: anywhere
}

// letters is the size of numbers and readings, in drawn pixels.
func (v View) letters() float64 { return LettersUnits * v.Pixel }

// To returns where a still's place lies, in drawn pixels.
func (v View) To(p ink.Point) ink.Point { return p.Minus(v.Origin).Times(v.Scale) }

// Marks returns what is drawn of notes, lowest first: areas, then the others in their
// order, then their numbers. Several areas of a side share a mark.
func (v View) Marks(list []Note) []ink.Mark {
	p, worded := v.pen(), v.firstWorded(list)
	for i, number := range Numbers(list) {
		p.worded = i >= worded
		p.note(list[i], number)
	}
	return p.all()
}

// Draw draws notes on dst, where clip lets it, as Marks lists them, one after the other: what
// all of them draw may be much at once.
func (v View) Draw(d *ink.Drawer, dst *image.RGBA, clip image.Rectangle, list []Note) {
	lowest := v.pen()
	for _, n := range list {
		if _, ok := n.Shape.(Area); ok {
			lowest.note(n, 0)
		}
	}
	lowest.marks = nil
	d.Draw(dst, clip, lowest.all())
	p, worded := v.pen(), v.firstWorded(list)
	for i, number := range Numbers(list) {
		p.worded = i >= worded
		p.note(list[i], number)
		d.Draw(dst, clip, p.marks)
		p.marks = p.marks[:0]
	}
	d.Draw(dst, clip, p.badges)
}

// marksOf returns what is drawn of one note, with its number unless that is 0.
func (v View) marksOf(n Note, number int) []ink.Mark {
	p := v.pen()
	p.note(n, number)
	return p.all()
}

// Bounds returns the drawn pixels that notes may touch.
func (v View) Bounds(list ...Note) image.Rectangle { return boundsOf(v.Marks(list)) }

// BoundsIn returns the drawn pixels that one note of a list may touch.
func (v View) BoundsIn(list []Note, i int) image.Rectangle {
	return boundsOf(v.marksOf(list[i], Numbers(list[:i+1])[i]))
}

func boundsOf(marks []ink.Mark) (r image.Rectangle) {
	for i := range marks {
		r = r.Union(marks[i].Bounds())
	}
	return r
}

// Top returns the index of the topmost note at p, or no further from it than reach, both
// in drawn pixels; -1 if there is none. Areas lie under all other notes.
func (v View) Top(list []Note, p ink.Point, reach float64) int {
	top, area := -1, -1
	numbers, worded := Numbers(list), v.firstWorded(list)
	for i, n := range list {
		pen := v.pen()
		pen.worded = i >= worded
		pen.note(n, numbers[i])
		pen.badges = nil
		for _, m := range pen.all() {
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
