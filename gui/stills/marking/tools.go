package marking

import (
	"image"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// Tool draws one kind of note. A new one is one entry in Tools.
type Tool struct {
	Name string
	// begin returns the shape that begins at a place of the still.
	begin func(b *Board, at notes.Point) (notes.Shape, bool)
	// to returns the shape drawn on to a place; even asks for equal sides or a straight way.
	// nil: the shape is whole at once.
	to func(s notes.Shape, p notes.Point, even bool) notes.Shape
	// least says whether a shape that was no more than clicked is a note.
	least bool
	// text says that the note is there for its text, which is asked for.
	text bool
}

// Widths of what is drawn, in units of notes.View.Pixel.
const (
	noteLine  = 2.0
	noteBrush = 14.0
	noteText  = 14.0
)

// Tools lists them in the order in which they are offered. The first place is for
// taking hold of notes.
func Tools() []Tool {
	return []Tool{
		{Name: "Hold"},
		{Name: "Stroke", begin: beginStroke, to: func(s notes.Shape, p notes.Point, _ bool) notes.Shape { return s.(notes.Stroke).To(p) }},
		{Name: "Arrow", begin: func(b *Board, at notes.Point) (notes.Shape, bool) {
			return notes.Arrow{From: at, To: at, Width: b.width(noteLine)}, true
		}, to: func(s notes.Shape, p notes.Point, even bool) notes.Shape {
			a := s.(notes.Arrow)
			a.To = straight(a.From, p, even)
			return a
		}},
		{Name: "Ring", begin: func(b *Board, at notes.Point) (notes.Shape, bool) {
			return notes.Ring{From: at, To: at, Width: b.width(noteLine)}, true
		}, to: func(s notes.Shape, p notes.Point, even bool) notes.Shape {
			r := s.(notes.Ring)
			r.To = corner(r.From, p, even)
			return r
		}},
		{Name: "Box", begin: func(b *Board, at notes.Point) (notes.Shape, bool) {
			return notes.Box{From: at, To: at, Width: b.width(noteLine)}, true
		}, to: func(s notes.Shape, p notes.Point, even bool) notes.Shape {
			b := s.(notes.Box)
			b.To = corner(b.From, p, even)
			return b
		}},
		{Name: "Label", least: true, text: true, begin: func(b *Board, at notes.Point) (notes.Shape, bool) {
			return notes.Label{At: at, Size: b.width(noteText)}, true
		}},
		{Name: "Spot", least: true, begin: beginSpot},
		{Name: "Light", least: true, begin: beginArea(notes.Light), to: paintOn},
		{Name: "Shadow", least: true, begin: beginArea(notes.Shadow), to: paintOn},
	}
}

func beginStroke(b *Board, at notes.Point) (notes.Shape, bool) {
	return notes.Stroke{Points: []notes.Point{at}, Width: b.width(noteLine)}, true
}

func beginArea(side notes.Side) func(*Board, notes.Point) (notes.Shape, bool) {
	return func(b *Board, at notes.Point) (notes.Shape, bool) {
		return notes.Area{Side: side, Points: []notes.Point{at}, Width: b.width(noteBrush)}, true
	}
}

func paintOn(s notes.Shape, p notes.Point, _ bool) notes.Shape { return s.(notes.Area).To(p) }

// beginSpot reads the still at a place.
func beginSpot(b *Board, at notes.Point) (notes.Shape, bool) {
	p := image.Pt(int(math.Floor(at.X)), int(math.Floor(at.Y)))
	reading, err := analysis.ReadSpot(b.still.Picture, p.X, p.Y, b.acts.SpotSize())
	if err != nil {
		return nil, false
	}
	return notes.Spot{At: ink.Pt(float64(p.X)+0.5, float64(p.Y)+0.5), Reading: reading}, true
}

// width turns a length in units of notes.View.Pixel into still pixels, as the still lies now.
func (b *Board) width(units float64) float64 {
	v := b.look().View
	return math.Max(hundredths(units*v.Pixel/v.Scale), 0.5)
}

// corner returns the corner opposite to from; even makes the sides equal.
func corner(from, p notes.Point, even bool) notes.Point {
	if !even {
		return p
	}
	way := p.Minus(from)
	side := math.Max(math.Abs(way.X), math.Abs(way.Y))
	return from.Plus(ink.Pt(math.Copysign(side, way.X), math.Copysign(side, way.Y)))
}

// straight returns the end of a way from a point; even turns it to the nearest eighth of a
// circle.
func straight(from, p notes.Point, even bool) notes.Point {
	if !even {
		return p
	}
	way := p.Minus(from)
	angle := math.Round(math.Atan2(way.Y, way.X)/(math.Pi/4)) * math.Pi / 4
	s, c := math.Sincos(angle)
	return from.Plus(ink.Pt(c*way.Length(), s*way.Length()))
}
