package widgets

import "fyne.io/fyne/v2"

// LeastHeight gives its one part all the room there is, and asks for a height.
type LeastHeight struct{ Height float32 }

// Layout gives all of the room.
func (LeastHeight) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// MinSize asks for the height.
func (l LeastHeight) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(o[0].MinSize().Width, l.Height)
}

// AnyWidth gives its one part all the room there is, and asks for its height alone: the part has
// letters that grow smaller where there is too little.
type AnyWidth struct{}

// Layout gives all of the room.
func (AnyWidth) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// MinSize asks for the height.
func (AnyWidth) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(0, o[0].MinSize().Height)
}

// LeastLines gives a text the height of at least so many lines, while it is shown.
type LeastLines int

// Layout gives it all there is.
func (LeastLines) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// MinSize is the text's, or that of the lines.
func (n LeastLines) MinSize(o []fyne.CanvasObject) (size fyne.Size) {
	if !o[0].Visible() {
		return size
	}
	size = o[0].MinSize()
	line := fyne.MeasureText("M", SmallSize(), fyne.TextStyle{}).Height
	return fyne.NewSize(size.Width, max(size.Height, float32(n)*line+2*Step))
}

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
		put(o[i], fyne.NewPos(x, (size.Height-h)/2), fyne.NewSize(w, h))
		x += w
	}
}

// MinSize is a row's.
func (SliderRow) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(sliderName+sliderNumber+6*Step, sliderHeight)
}

// ScrollToShow returns by how much a room of this height has to be scrolled down, so that a
// part that begins at top is seen: all of it, or its beginning, with a little around it.
func ScrollToShow(top, height, room float32) float32 {
	switch bottom := top + height; {
	case top < 0:
		return top - Step
	case bottom > room:
		return max(min(bottom+Step-room, top-Step), 0)
	}
	return 0
}
