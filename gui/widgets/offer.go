package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// offer is a question over the picture's foot with two answers, the first for yes.
type offer struct {
	drawn
	back    *canvas.Rectangle
	words   *widget.RichText
	scroll  *container.Scroll // of the words, where there is no room for all of them
	answers [2]*PictureButton
}

func newOffer(keys Keys) *offer {
	o := &offer{words: wordsOnPicture()}
	o.back = add(&o.drawn, newPanelBox())
	o.scroll = add(&o.drawn, container.NewVScroll(o.words))
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
// one line in the plain size. It is at most so much, but for one line and the answers.
func (o *offer) heightFor(width, most float32) float32 {
	if o.words.Size().Width != width {
		o.words.Resize(fyne.NewSize(width, o.words.Size().Height))
	}
	high, least := round(o.wordsHeight())+o.answersHigh(width), Row()+o.answersHigh(width)
	return min(high, max(most, least))
}

// answersHigh is the height of the answers in a width.
func (o *offer) answersHigh(width float32) float32 {
	if o.inOneRow(width) {
		return Row() + Step
	}
	return 2 * (Row() + Step)
}

// wordsHeight is the words', without the room that the toolkit leaves below them.
func (o *offer) wordsHeight() float32 { return o.words.MinSize().Height }

// leastAnswer is the part of their widths to which answers are pressed together to stand beside
// each other, in smaller letters (our choice: they stay those of text a step smaller).
const leastAnswer = 0.85

// beside is the part of their widths that the answers have beside each other, 1 at most.
func (o *offer) beside(width float32) float32 {
	return min((width-3*Step)/(o.answers[0].MinSize().Width+o.answers[1].MinSize().Width), 1)
}

// inOneRow reports whether the answers fit beside each other.
func (o *offer) inOneRow(width float32) bool { return o.beside(width) >= leastAnswer }

func (o *offer) place(size fyne.Size) {
	o.back.Resize(size)
	high := min(o.wordsHeight(), max(size.Height-o.answersHigh(size.Width), 0))
	put(o.scroll, fyne.Position{}, fyne.NewSize(size.Width, high))
	x, y := Step, round(high)
	for _, b := range o.answers {
		least := b.MinSize()
		wide := min(least.Width, max(size.Width-2*Step, 1))
		if o.inOneRow(size.Width) {
			wide = least.Width * o.beside(size.Width)
		}
		put(b, fyne.NewPos(x, y), fyne.NewSize(wide, least.Height))
		if o.inOneRow(size.Width) {
			x += wide + Step
		} else {
			y += Row() + Step
		}
	}
}
