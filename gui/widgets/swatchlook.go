package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// swatchLook draws a row of swatches. Its objects are never thrown away: there are as many as
// there ever were swatches.
type swatchLook struct {
	s                   *SwatchRow
	boxes, greys, under []*canvas.Rectangle
	labels              []*canvas.Text
	line                outline // around the swatch that the keys work on
}

// grow makes objects for n swatches.
func (l *swatchLook) grow(n int) {
	if len(l.boxes) >= n {
		return
	}
	for len(l.boxes) < n {
		l.boxes = append(l.boxes, canvas.NewRectangle(color.Transparent))
		l.greys = append(l.greys, canvas.NewRectangle(color.Transparent))
		l.under = append(l.under, canvas.NewRectangle(color.Transparent))
		l.labels = append(l.labels, sizedText(SmallSize, fyne.TextStyle{}))
	}
	l.s.objects = l.s.objects[:0]
	for i := range l.boxes {
		l.s.objects = append(l.s.objects, l.boxes[i], l.greys[i], l.under[i], l.labels[i])
	}
	l.s.objects = append(l.s.objects, l.line.objects()...)
}

// write puts in the colours, and the labels that fit.
func (l *swatchLook) write(size fyne.Size, of colours) {
	s, n := l.s, len(l.s.swatches)
	l.grow(n)
	for i := range l.boxes {
		var w Swatch
		if i < n {
			w = s.swatches[i]
			_, box := s.plan.box(i, n, size.Width)
			fill(l.boxes[i], rgbFill(w.Colour))
			fill(l.greys[i], greyFill(w.Grey))
			fill(l.under[i], of(ColorNameFocusLine))
			say(l.labels[i], longestFitting(box.Width, SmallSize, w.Label, ""), of(theme.ColorNameForeground))
		}
		there := i < n && !w.None
		show(l.boxes[i], there)
		show(l.greys[i], there && s.plan.Greys > 0)
		show(l.under[i], w.Marked)
		show(l.labels[i], i < n && (s.plan.Labels || w.None))
	}
	l.line.show(s.focused && s.at < n)
}

// place stands the swatches edge to edge.
func (l *swatchLook) place(size fyne.Size) {
	s, n := l.s, len(l.s.swatches)
	for i, w := range s.swatches[:min(n, len(l.boxes))] {
		at, box := s.plan.box(i, n, size.Width)
		top := float32(0)
		if w.Short {
			top = float32(int(box.Height / 2))
		}
		put(l.boxes[i], at.AddXY(0, top), fyne.NewSize(box.Width, box.Height-top))
		put(l.greys[i], at.AddXY(0, box.Height), fyne.NewSize(box.Width, s.plan.Greys))
		label := s.plan.Height + s.plan.Greys + 1
		if w.None {
			label = s.plan.Height/2 - Step
		}
		placeText(l.labels[i], at.X+(box.Width-l.labels[i].MinSize().Width)/2, at.Y+label)
		wide := min(3*Step, box.Width)
		put(l.under[i], at.AddXY((box.Width-wide)/2, s.plan.lineHeight()-2), fyne.NewSize(wide, 2))
	}
	if n > 0 {
		at, box := s.plan.box(s.at, n, size.Width)
		l.line.place(at, box.AddWidthHeight(0, s.plan.Greys))
	}
}

// minSize has a fixed height for a number of swatches.
func (l *swatchLook) minSize() fyne.Size {
	return fyne.NewSize(8*Step, float32(l.s.lines(len(l.s.swatches)))*l.s.plan.lineHeight())
}
