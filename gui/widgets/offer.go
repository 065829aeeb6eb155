package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// offer is a question over the picture's foot with two answers, the first for yes.
type offer struct {
	drawn
	back    *canvas.Rectangle
	words   *widget.RichText
	answers [2]*PictureButton
}

func newOffer(keys Keys) *offer {
	o := &offer{words: wordsOnPicture()}
	o.back = add(&o.drawn, newPanelBox())
	add(&o.drawn, o.words)
	for i := range o.answers {
		o.answers[i] = add(&o.drawn, newPictureButton(shapeAnswer, keys, nil))
	}
	o.Hidden = true
	o.draw(o)
	return o
}

// set shows a question, or hides it.
func (o *offer) set(m Message) {
	sayOnPicture(o.words, m.Words)
	for i, b := range o.answers {
		act := nth(m.Acts, i)
		b.set(act.Icon, act.Name, "", act.Do)
	}
	show(o, m.Words != "")
	o.redraw()
}

// Tapped keeps a tap from the picture below.
func (o *offer) Tapped(*fyne.PointEvent) {}

func (o *offer) write(_ fyne.Size, of colours) {
	o.back.StrokeWidth, o.back.StrokeColor = 1, of(ColorNameChipEdge)
	fill(o.back, of(ColorNameChip))
}

// heightFor lays the words out in a width, and returns the height of words and answers: 76 with
// one line in the plain size.
func (o *offer) heightFor(width float32) float32 {
	if o.words.Size().Width != width {
		o.words.Resize(fyne.NewSize(width, o.words.Size().Height))
	}
	rows := float32(1)
	if !o.inOneRow(width) {
		rows = 2
	}
	return round(o.wordsHeight()) + rows*(Row()+Step)
}

// wordsHeight is the words', without the room that the toolkit leaves below them.
func (o *offer) wordsHeight() float32 { return o.words.MinSize().Height }

// inOneRow reports whether the answers fit beside each other.
func (o *offer) inOneRow(width float32) bool {
	return o.answers[0].MinSize().Width+o.answers[1].MinSize().Width+3*Step <= width
}

func (o *offer) place(size fyne.Size) {
	o.back.Resize(size)
	high := o.wordsHeight()
	put(o.words, fyne.Position{}, fyne.NewSize(size.Width, high))
	x, y := Step, round(high)
	for _, b := range o.answers {
		least := b.MinSize()
		put(b, fyne.NewPos(x, y), fyne.NewSize(min(least.Width, max(size.Width-2*Step, 1)), least.Height))
		if o.inOneRow(size.Width) {
			x += least.Width + Step
		} else {
			y += Row() + Step
		}
	}
}
