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

// Snug stands parts below each other, one of which has what is left, a step apart or, where they would
// find no room so, closer.
type Snug struct {
	Stretch int            // the part that has what is left
	Least   func() float32 // the height that it needs; nil for its own
	Around  bool           // as much is left free around them
}

// leastGap is between parts that stand close (our choice: grounds are told apart still).
const leastGap = 3

// fixed are the heights of all parts together, and how many gaps there are.
func (s Snug) fixed(o []fyne.CanvasObject) (high float32, gaps int) {
	for i, part := range o {
		if i == s.Stretch && s.Least != nil {
			high += s.Least()
		} else {
			high += part.MinSize().Height
		}
	}
	gaps = len(o) - 1
	if s.Around {
		gaps += 2
	}
	return high, gaps
}

// Layout gives all parts the room's width.
func (s Snug) Layout(o []fyne.CanvasObject, size fyne.Size) {
	high, gaps := s.fixed(o)
	gap := min(max(round((size.Height-high)/float32(max(gaps, 1))-0.5), leastGap), Step)
	y, x := float32(0), float32(0)
	if s.Around {
		y, x = gap, gap
	}
	for i, part := range o {
		h := part.MinSize().Height
		if i == s.Stretch {
			h = size.Height - float32(gaps)*gap
			for other, p := range o {
				if other != i {
					h -= p.MinSize().Height
				}
			}
			h = max(h, 0)
		}
		put(part, fyne.NewPos(x, y), fyne.NewSize(size.Width-2*x, h))
		y += h + gap
	}
}

// MinSize is that with small gaps.
func (s Snug) MinSize(o []fyne.CanvasObject) (size fyne.Size) {
	high, gaps := s.fixed(o)
	for _, part := range o {
		size.Width = max(size.Width, part.MinSize().Width)
	}
	return fyne.NewSize(size.Width, high+float32(gaps)*leastGap)
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
