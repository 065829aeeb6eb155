package widgets

import "fyne.io/fyne/v2"

// SliderRow stands name, slider and number beside each other in columns of their own.
type SliderRow struct{}

const (
	sliderName   = 14 * Step
	sliderNumber = 12 * Step
	sliderHeight = 3.5 * Step
)

// Layout gives the slider what the words leave.
func (SliderRow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	widths := []float32{sliderName, size.Width - sliderName - sliderNumber, sliderNumber}
	x := float32(0)
	for i, w := range widths {
		h := o[i].MinSize().Height
		o[i].Move(fyne.NewPos(x, (size.Height-h)/2))
		o[i].Resize(fyne.NewSize(w, h))
		x += w
	}
}

// MinSize is a row's.
func (SliderRow) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(sliderName+sliderNumber+6*Step, sliderHeight)
}
