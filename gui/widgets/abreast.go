package widgets

import "fyne.io/fyne/v2"

// Abreast stands parts beside each other. Each has the width that it wishes where there is room for
// all, else the last give way first, down to their least: buttons and choosers that shorten. What
// is left over goes to the part at Stretch, or to all by their widths where that is none of them.
type Abreast struct{ Stretch int }

// All is the Stretch of a line whose parts all grow.
const All = -1

// wisher is a part that is wider where there is room.
type wisher interface{ wish() float32 }

// widths returns those of parts that wish and need so much, in a line of this width.
func (l Abreast) widths(wish, least []float32, width float32) []float32 {
	room := width - Step*float32(len(wish)-1)
	got := append([]float32(nil), wish...)
	for _, w := range got {
		room -= w
	}
	sum := width - Step*float32(len(wish)-1) - room
	for i := len(got) - 1; i >= 0 && room < 0; i-- {
		room += got[i] - least[i]
		got[i] = least[i]
	}
	for i := range got {
		switch {
		case room <= 0:
		case l.Stretch == All:
			got[i] += room * wish[i] / sum
		case l.Stretch == i:
			got[i] += room
		}
	}
	return got
}

// ask returns what visible parts wish and need.
func (Abreast) ask(o []fyne.CanvasObject) (parts []fyne.CanvasObject, wish, least []float32, height float32) {
	for _, part := range o {
		if !part.Visible() {
			continue
		}
		size := part.MinSize()
		w := size.Width
		if p, ok := part.(wisher); ok {
			w = max(w, p.wish())
		}
		parts, wish, least = append(parts, part), append(wish, w), append(least, size.Width)
		height = max(height, size.Height)
	}
	return parts, wish, least, height
}

// Layout gives all parts the line's height.
func (l Abreast) Layout(o []fyne.CanvasObject, size fyne.Size) {
	parts, wish, least, _ := l.ask(o)
	x := float32(0)
	for i, w := range l.widths(wish, least, size.Width) {
		right := round(x + w) // whole units: between pixels pictograms are blurred
		put(parts[i], fyne.NewPos(round(x), 0), fyne.NewSize(right-round(x), size.Height))
		x += w + Step
	}
}

// MinSize is what all parts need.
func (l Abreast) MinSize(o []fyne.CanvasObject) fyne.Size {
	_, _, least, height := l.ask(o)
	sum := Step * float32(max(len(least)-1, 0))
	for _, w := range least {
		sum += w
	}
	return fyne.NewSize(sum, height)
}
