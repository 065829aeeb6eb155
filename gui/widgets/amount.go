package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// Amount is a number as a slider, and in words at its right.
type Amount struct {
	drawn
	Slider *Slider
	say    func(float64) string
	words  *canvas.Text
}

// NewAmount returns a slider that stands at a number. say puts it into words, and changed is called
// with each other; if it waits, only when the slider is let go.
func NewAmount(s *Slider, at float64, say func(float64) string, changed func(float64), waits bool) *Amount {
	a := &Amount{Slider: s, say: say}
	s.Value = at
	add(&a.drawn, s)
	a.words = a.addText(TextSize, fyne.TextStyle{})
	s.OnChanged = func(to float64) {
		a.redraw()
		if !waits {
			changed(to)
		}
	}
	if waits {
		s.OnChangeEnded = changed
	}
	a.draw(a)
	return a
}

// Set shows another number, without calling anybody.
func (a *Amount) Set(to float64) {
	if a.Slider.Value != to {
		a.Slider.Value = to
		a.Slider.Refresh()
		a.redraw()
	}
}

func (a *Amount) write(_ fyne.Size, of colours) {
	say(a.words, a.say(a.Slider.Value), of(theme.ColorNameForeground))
}

// wordsRoom is the width of the words, at either end of the slider.
func (a *Amount) wordsRoom() float32 {
	width := func(v float64) float32 { return fyne.MeasureText(a.say(v), TextSize(), fyne.TextStyle{}).Width }
	const column = 8.5 * Step // so that sliders below each other end alike
	return max(column*textScale(), max(width(a.Slider.Min), width(a.Slider.Max), width(a.Slider.Value))+Step)
}

func (a *Amount) place(size fyne.Size) {
	room := a.wordsRoom()
	put(a.Slider, fyne.NewPos(0, 0), fyne.NewSize(size.Width-room, size.Height))
	placeText(a.words, size.Width-a.words.MinSize().Width, (size.Height-a.words.MinSize().Height)/2)
}

func (a *Amount) minSize() fyne.Size { return fyne.NewSize(10*Step+a.wordsRoom(), Row()) }
