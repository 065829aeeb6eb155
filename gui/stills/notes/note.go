package notes

import (
	"crypto/rand"
	"encoding/json"

	"app.tonedesk/gui/stills/ink"
)

// Note is one mark on a still.
type Note struct {
	ID    string // never changes, and no other note of any still has it
	Shape Shape
	Text  string // what the painter wrote to it; of a label, the label

	rest    string                     // of a text beyond MostText, which somebody else wrote
	raw     json.RawMessage            // of a note that this program doesn't understand
	unknown map[string]json.RawMessage // fields of other programs, written back as they were
}

// Shape is what a note draws, and where. A kind of note is a file kind_name.go with a type
// of this interface, whose fields are its JSON, and its line in kinds.
// Shapes don't change: slices in them are never written to.
//
// Where a note can be taken hold of and what it covers follows from what it draws.
type Shape interface {
	// Moved returns the shape moved by way.
	Moved(way ink.Point) Shape
	// fine reports whether the shape, which may come from anywhere, can be drawn.
	fine() bool
	// draw draws the shape of a note with text.
	draw(p *pen, text string)
}

// Drawn is a shape that is drawn by a drag.
type Drawn interface {
	Shape
	// DrawnTo returns the shape drawn on to p; even asks for equal sides or a straight way. It
	// may be called once for each shape: the points of both share memory.
	DrawnTo(p ink.Point, even bool) Shape
}

// New returns a note with a shape, and an ID of its own.
func New(s Shape, text string) Note { return Note{ID: newID(), Shape: s, Text: text} }

// newID returns an ID that no other note has: 128 random bits.
func newID() string { return rand.Text() }

// Moved returns the note moved by way, in still pixels. A note that this program doesn't
// understand stays where it is.
func (n Note) Moved(way ink.Point) Note {
	if n.Known() {
		n.Shape = n.Shape.Moved(way)
	}
	return n
}

// MostText is how many letters a note's text may have (our choice). What is longer, from
// another program, is not shown, and written back as it was.
const MostText = 4000

// cutText returns a text up to MostText, and what comes after.
func cutText(text string) (shown, rest string) {
	n := 0
	for at := range text {
		if n++; n > MostText {
			return text[:at], text[at:]
		}
	}
	return text, ""
}

// WithText returns the note with other text.
func (n Note) WithText(text string) Note {
	if n.Known() {
		n.Text = text
	}
	return n
}

// Known reports whether this program understands the note. One that it doesn't, from a
// newer program, is kept as it is and not shown.
func (n Note) Known() bool { return n.raw == nil && n.Shape != nil }

// Speaks reports whether the note has something to read: those are the notes with numbers.
func (n Note) Speaks() bool {
	if !n.Known() {
		return false
	}
	_, spot := n.Shape.(Spot)
	return spot || n.Text != ""
}

// Numbers returns the number of each note, from 1 in their order; 0 for a note that says
// nothing.
func Numbers(list []Note) []int {
	numbers, last := make([]int, len(list)), 0
	for i, n := range list {
		if n.Speaks() {
			last++
			numbers[i] = last
		}
	}
	return numbers
}
