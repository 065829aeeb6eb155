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
	// begin returns the shape that begins at a place of the still; nil: there is none.
	begin func(b *Board, at ink.Point) notes.Shape
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

// Tools lists the tools in the order in which they are offered. The first one
// selects notes.
func Tools() []Tool {
	return []Tool{
		{Name: "Select"},
		{Name: "Stroke", begin: func(b *Board, at ink.Point) notes.Shape {
			return notes.Stroke{Points: []ink.Point{at}, Width: b.width(noteLine)}
		}},
		{Name: "Arrow", begin: func(b *Board, at ink.Point) notes.Shape {
			return notes.Arrow{From: at, To: at, Width: b.width(noteLine)}
		}},
		{Name: "Ring", begin: func(b *Board, at ink.Point) notes.Shape {
			return notes.Ring{From: at, To: at, Width: b.width(noteLine)}
		}},
		{Name: "Box", begin: func(b *Board, at ink.Point) notes.Shape {
			return notes.Box{From: at, To: at, Width: b.width(noteLine)}
		}},
		{Name: "Label", least: true, text: true, begin: func(b *Board, at ink.Point) notes.Shape {
			return notes.Label{At: at, Size: b.width(noteText)}
		}},
		{Name: "Spot", least: true, begin: beginSpot},
		{Name: "Light", least: true, begin: beginArea(notes.Light)},
		{Name: "Shadow", least: true, begin: beginArea(notes.Shadow)},
	}
}

func beginArea(side notes.Side) func(*Board, ink.Point) notes.Shape {
	return func(b *Board, at ink.Point) notes.Shape {
		return notes.Area{Side: side, Points: []ink.Point{at}, Width: b.width(noteBrush)}
	}
}

// beginSpot reads the still at a place.
func beginSpot(b *Board, at ink.Point) notes.Shape {
	p := image.Pt(int(math.Floor(at.X)), int(math.Floor(at.Y)))
	reading, err := analysis.ReadSpot(b.still.Picture, p.X, p.Y, b.acts.SpotSize())
	if err != nil {
		return nil
	}
	return notes.Spot{At: ink.Pt(float64(p.X)+0.5, float64(p.Y)+0.5), Reading: reading}
}

// width turns a length in units of notes.View.Pixel into still pixels, as the still lies now.
func (b *Board) width(units float64) float64 {
	v := b.look().View
	return max(hundredths(units*v.Pixel/v.Scale), 0.5)
}
