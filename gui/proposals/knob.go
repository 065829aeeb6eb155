package proposals

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/widgets"
)

// knob is a number that can be set: its name, from where to where by what steps it goes, and how it
// is written.
type knob struct {
	name           string
	from, to, step float64
	word           func(float64) string
}

// sliderGrains in one are far finer than a slider's step, whose multiples miss a number by
// their last digit.
const sliderGrains = 1e9

// knobSlider is one number: its name, a slider, and the number itself.
type knobSlider struct {
	box          *fyne.Container
	Slider       *widgets.Slider
	name, number *widget.Label
	knob
}

// newKnobSlider returns a slider; change is told of every number, and a drag's are one step of undo.
func newKnobSlider(k knob, h *host.Host, change func(v float64)) *knobSlider {
	s := &knobSlider{Slider: widgets.NewSlider(k.from, k.to, k.step, h.Keys), name: widgets.SmallLabel(), number: widgets.SmallLabel(), knob: k}
	s.number.Wrapping, s.number.Alignment = fyne.TextWrapOff, fyne.TextAlignTrailing
	s.name.Wrapping = fyne.TextWrapOff
	s.name.SetText(k.name)
	s.Slider.OnChanged = func(v float64) { change(math.Round(v*sliderGrains) / sliderGrains) }
	s.Slider.OnChangeEnded = func(float64) { h.Steps.Settle() }
	s.box = container.New(&widgets.SliderRow{}, s.name, s.Slider, s.number)
	return s
}

// show shows a number.
func (s *knobSlider) show(v float64) {
	if math.Abs(s.Slider.Value-v) > 1/sliderGrains {
		s.Slider.SetValue(v)
	}
	if words := s.word(v); s.number.Text != words {
		s.number.SetText(words)
	}
}
