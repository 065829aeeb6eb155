package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Entry is Fyne's line to type in, which is revealed when it gets the focus, and left with Esc.
type Entry struct {
	widget.Entry

	OnEscape func() // Esc was pressed; nil for nothing to do
	OnLeft   func() // the focus has gone; nil for nothing to do

	keys Keys
}

// NewEntry returns an empty line, which shows the placeholder while nothing is typed.
func NewEntry(keys Keys, placeholder string) *Entry {
	e := &Entry{keys: keys}
	e.PlaceHolder = placeholder
	e.ExtendBaseWidget(e)
	return e
}

// FocusGained reveals the line.
func (e *Entry) FocusGained() {
	e.keys.Reveal(e)
	e.Entry.FocusGained()
}

// FocusLost tells that the line was left.
func (e *Entry) FocusLost() {
	e.Entry.FocusLost()
	if e.OnLeft != nil {
		e.OnLeft()
	}
}

// TypedKey tells of Esc; all other keys edit the line.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	if k.Name != fyne.KeyEscape {
		e.Entry.TypedKey(k)
	} else if e.OnEscape != nil {
		e.OnEscape()
	}
}
