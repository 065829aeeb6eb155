package widgets

import "fyne.io/fyne/v2"

// Folding stands parts beside each other, the first as wide as the others leave room, and gives that
// a row of its own where they leave it none.
type Folding struct{ drawn }

// NewFolding returns a row of parts.
func NewFolding(parts ...fyne.CanvasObject) *Folding {
	f := &Folding{}
	f.objects = parts
	f.draw(f)
	return f
}

// folded reports whether the first part has a row of its own in a width.
func (f *Folding) folded(width float32) bool {
	_, wish, least, _ := Abreast{}.ask(f.objects)
	need := wish[0]
	for _, w := range least[1:] {
		need += Step + w
	}
	return width > 0 && need > width
}

// Resize asks for another height where the row becomes two.
func (f *Folding) Resize(size fyne.Size) {
	before := f.minSize()
	f.drawn.Resize(size)
	if f.minSize() != before {
		f.Refresh()
	}
}

func (f *Folding) write(fyne.Size, colours) {}

func (f *Folding) place(size fyne.Size) {
	if !f.folded(size.Width) {
		Abreast{Stretch: 0}.Layout(f.objects, size)
		return
	}
	high := (size.Height - Step) / 2
	put(f.objects[0], fyne.Position{}, fyne.NewSize(size.Width, high))
	Abreast{Stretch: All}.Layout(f.objects[1:], fyne.NewSize(size.Width, high))
	for _, o := range f.objects[1:] {
		o.Move(o.Position().AddXY(0, high+Step))
	}
}

// minSize is the height at the width of now.
func (f *Folding) minSize() fyne.Size {
	_, _, _, high := Abreast{}.ask(f.objects)
	if f.folded(f.Size().Width) {
		high += Step + high
	}
	return fyne.NewSize(0, high)
}
