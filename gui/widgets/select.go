package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Select is Fyne's list to choose one of. A press may reach it before it was drawn for the
// first time: the toolkit doesn't know its window then, and would break down.
type Select struct{ widget.Select }

// NewSelect returns a list of words to choose from.
func NewSelect(words []string, changed func(string)) *Select {
	s := &Select{}
	s.Options, s.OnChanged = words, changed
	s.ExtendBaseWidget(s)
	return s
}

// Tapped opens the list.
func (s *Select) Tapped(e *fyne.PointEvent) {
	if s.drawn() {
		s.Select.Tapped(e)
	}
}

// TypedKey opens the list, or chooses the one beside.
func (s *Select) TypedKey(e *fyne.KeyEvent) {
	if s.drawn() {
		s.Select.TypedKey(e)
	}
}

func (s *Select) drawn() bool { return fyne.CurrentApp().Driver().CanvasForObject(s) != nil }
