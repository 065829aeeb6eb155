package gui

import "fyne.io/fyne/v2/widget"

// slider is Fyne's slider that is revealed when it gets the focus.
type slider struct {
	widget.Slider
	keys keySink
}

func newSlider(from, to, step float64, keys keySink) *slider {
	s := &slider{keys: keys}
	s.Min, s.Max, s.Step = from, to, step
	s.ExtendBaseWidget(s)
	return s
}

// FocusGained reveals it.
func (s *slider) FocusGained() {
	s.keys.reveal(s)
	s.Slider.FocusGained()
}
