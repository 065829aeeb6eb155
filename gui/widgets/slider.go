package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Slider is Fyne's slider, which is revealed when it gets the focus, and leaves to the window the
// keys that it has no use for.
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

// CreateRenderer gives the rail greys that are seen on a panel: the toolkit's is as dark there as
// a well, and on the light ground as light.
func (s *Slider) CreateRenderer() fyne.WidgetRenderer {
	r := &sliderRenderer{s.Slider.CreateRenderer(), s}
	r.greys()
	return r
}

type sliderRenderer struct {
	fyne.WidgetRenderer
	slider *Slider
}

func (r *sliderRenderer) Refresh() {
	r.WidgetRenderer.Refresh()
	r.greys()
}

// greys colours the rail and the part of it before the thumb, which the toolkit draws first.
func (r *sliderRenderer) greys() {
	of := coloursOf(r.slider)
	for i, name := range []fyne.ThemeColorName{ColorNameHairline, ColorNameQuiet} {
		if rail, ok := r.Objects()[i].(*canvas.Rectangle); ok {
			rail.FillColor = of(name)
			rail.Refresh()
		}
	}
}

// FocusGained reveals it.
func (s *Slider) FocusGained() {
	s.keys.Reveal(s)
	s.Slider.FocusGained()
}

// TypedKey moves it with the arrows.
func (s *Slider) TypedKey(e *fyne.KeyEvent) {
	if _, moves := arrows[e.Name]; moves {
		s.Slider.TypedKey(e)
		return
	}
	s.keys.TypedKey(e.Name)
}

// TypedRune goes to the window's keys, but for the space, which presses what has the focus.
func (s *Slider) TypedRune(r rune) {
	if r != ' ' {
		s.keys.TypedRune(r)
	}
}

// TypedShortcut goes to the window's keys.
func (s *Slider) TypedShortcut(c fyne.Shortcut) { s.keys.TypedShortcut(c) }
