package notes

import (
	"strings"
	"unicode/utf8"

	"app.tonedesk/gui/stills/ink"
)

// A label is laid out within its still, wherever it was put: near an edge it moves away from it,
// its lines break where there is no room for them, and what doesn't fit at all ends in an
// ellipsis. So it is whole in the window and in all that is exported.

// Measures of labels, all of them our choice.
const (
	mostText   = 1.0 / 8 // size of letters, as a part of the still's shorter side: a word fits across
	leastWide  = 12      // sizes of its letters that a line may be long at the least, where the still is
	ascent     = 1.0     // sizes of its letters that a line takes over its foot
	descent    = 0.3     // and under it
	beyond     = 0.1     // and before its beginning and after its end: a j hangs over
	mostBehind = 2       // how many times labels cover the still before those under them lose their words
)

// block is a label's words in lines as they are drawn.
type block struct {
	words string
	at    ink.Point // left end of the first line's foot
	size  float64
}

// room is a rectangle in drawn pixels.
type room struct{ left, top, right, bottom float64 }

// room returns where the still lies; false if that isn't known.
func (v View) room() (room, bool) {
	if v.Still.X <= 0 || v.Still.Y <= 0 {
		return room{}, false
	}
	from, to := v.To(ink.Point{}), v.To(ink.Pt(float64(v.Still.X), float64(v.Still.Y)))
	return room{from.X, from.Y, to.X, to.Y}, true
}

// textSize returns how large a label's letters are drawn, of a size in drawn pixels.
func (v View) textSize(size float64) float64 {
	if in, ok := v.room(); ok {
		size = min(size, mostText*min(in.right-in.left, in.bottom-in.top))
	}
	return max(size, leastText*v.Pixel)
}

// lay lays a label out: as it was put if it fits, else moved, broken and cut.
func (p *pen) lay(text string, at ink.Point, size float64) block {
	size = p.view.textSize(size)
	in, ok := p.view.room()
	if !ok {
		return block{text, at, size}
	}
	rim := p.rimOf(size/textRim) + 1 // and a pixel for rounding
	side := rim + beyond*size
	in = room{in.left + side, in.top + rim, in.right - side, in.bottom - rim}
	if p.counted > 0 {
		in.left += p.beforeWords(size)
	}
	letters, whole := ink.Letters{Face: ink.Bold, Size: size}, in.right-in.left
	most := 1 + max(0, int((in.bottom-in.top-(ascent+descent)*size)/(ink.LineHeight*size)))
	wide := max(in.right-at.X, whole/2, leastWide*size)
	lines := letters.Wrap(text, min(wide, whole), most)
	if len(lines) == most && wide < whole { // it may have been cut
		lines = letters.Wrap(text, whole, most)
	}
	at.X = max(in.left, min(at.X, in.right-letters.Widest(lines)))
	below := (float64(len(lines)-1)*ink.LineHeight + descent) * size
	at.Y = max(in.top+ascent*size, min(at.Y, in.bottom-below))
	return block{strings.Join(lines, "\n"), at, size}
}

// beforeWords returns how far before a label's words its number begins, of letters of a size.
func (p *pen) beforeWords(size float64) float64 {
	across, _ := p.badge()
	return across + leastRim*p.view.Pixel + p.rimOf(size/textRim) + beyond*size
}

// letterArea is how much of a still a letter of a label covers, with what is between the lines,
// in squares of its size: letters of mixed words are 0.6 of it wide, nearly.
const letterArea = 0.6 * ink.LineHeight

// firstWorded returns the index of the lowest note whose words are drawn on the still, if it is a
// label, or whose reading, if it is a spot: what lies under words that cover all of it more than once
// can't be read, and would take seconds to draw. Numbers are drawn of all.
func (v View) firstWorded(list []Note) int {
	in, ok := v.room()
	if !ok {
		return 0
	}
	all := (in.right - in.left) * (in.bottom - in.top)
	left := mostBehind * all
	for i := len(list) - 1; i >= 0; i-- {
		size, words := 0.0, ""
		switch shape := list[i].Shape.(type) {
		case Label:
			size, words = v.textSize(shape.Size*v.Scale), list[i].Text
		case Spot:
			size, words = v.letters(), shape.beside()
		default:
			continue
		}
		left -= min(all, letterArea*size*size*float64(utf8.RuneCountInString(words)))
		if left < 0 {
			return i + 1
		}
	}
	return 0
}
