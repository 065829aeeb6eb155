package widgets

import "fyne.io/fyne/v2/widget"

// Slider is Fyne's slider, which is revealed when it gets the focus.
type Slider struct {
	widget.Slider
	keys Keys
}

// NewSlider returns a slider from one number to another by steps.
func NewSlider(from, to, step float64, keys Keys) *Slider {
	s := &Slider{keys: keys}
	s.Min, s.Max, s.Step = from, to, step
	s.ExtendBaseWidget(s)
	return s
}

// FocusGained reveals it.
func (s *Slider) FocusGained() {
	s.keys.Reveal(s)
	s.Slider.FocusGained()
}
