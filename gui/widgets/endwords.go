package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// EndWords are quiet words at the right end of their room.
type EndWords struct {
	drawn
	words string
	text  *canvas.Text
}

// NewEndWords returns such words.
func NewEndWords(words string) *EndWords {
	e := &EndWords{words: words}
	e.text = e.addText(TextSize, fyne.TextStyle{})
	e.draw(e)
	return e
}

// Set says something else.
func (e *EndWords) Set(words string) {
	if words != e.words {
		e.words = words
		e.redraw()
	}
}

func (e *EndWords) write(_ fyne.Size, of colours) { say(e.text, e.words, of(ColorNameQuiet)) }
func (e *EndWords) minSize() fyne.Size {
	return e.text.MinSize().AddWidthHeight(0, Step/2)
}
func (e *EndWords) place(size fyne.Size) {
	placeText(e.text, size.Width-e.text.MinSize().Width, (size.Height-e.text.MinSize().Height)/2)
}
