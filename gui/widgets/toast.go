package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
)

// toast is a sentence over the picture's foot, with at most one word that does something, and a
// cross to close it where it stays. It is as high as the words need, and they can be scrolled
// where there is no room for all of them.
type toast struct {
	drawn
	back   *canvas.Rectangle
	words  *widget.RichText
	scroll *container.Scroll
	act    *PictureButton
	cross  *PictureButton
	inside bool   // the pointer is over it
	hold   func() // that began or ended; may be nil
}

func newToast(keys Keys, tips *Tips) *toast {
	t := &toast{words: wordsOnPicture()}
	t.back = add(&t.drawn, newPanelBox())
	t.scroll = add(&t.drawn, container.NewVScroll(t.words))
	t.act = add(&t.drawn, newPictureButton(shapeWord, keys, tips))
	t.cross = add(&t.drawn, newPictureButton(shapeWord, keys, tips))
	came := func(bool) { t.holds() }
	t.act.came, t.cross.came = came, came
	t.Hidden = true
	t.draw(t)
	return t
}

// wordsOnPicture is a text on what lies on the picture, that takes as many lines as it needs.
func wordsOnPicture() *widget.RichText {
	text := widget.NewRichText(&widget.TextSegment{Style: widget.RichTextStyle{ColorName: ColorNameChipText}})
	text.Wrapping = fyne.TextWrapWord
	return text
}

// sayOnPicture gives it words; the same ones cost nothing.
func sayOnPicture(text *widget.RichText, words string) {
	segment := text.Segments[0].(*widget.TextSegment)
	if words = Shortened(words, mostLetters); segment.Text != words {
		segment.Text = words
		text.Refresh()
	}
}

// mostLetters is how many letters are shown of a sentence, of which a path may be a part (our
// choice): to lay out a very long one takes long.
const mostLetters = 500

// set shows a message, or hides it.
func (t *toast) set(m Message) {
	if m.Words == "" && t.inside {
		t.inside = false
	}
	sayOnPicture(t.words, m.Words)
	act := nth(m.Acts, 0)
	t.act.set("", act.Name, "", act.Do)
	if m.Close != nil {
		t.cross.set(icons.Close, "", language.Say("Close, Esc"), m.Close)
	} else {
		t.cross.set("", "", "", nil)
	}
	t.scroll.ScrollToTop()
	show(t, m.Words != "")
	t.redraw()
}

func (t *toast) holds() {
	if t.hold != nil {
		t.hold()
	}
}

// held reports whether the pointer or the focus is on it.
func (t *toast) held() bool { return t.Visible() && (t.inside || t.act.held() || t.cross.held()) }

// Tapped keeps a tap from the picture below.
func (t *toast) Tapped(*fyne.PointEvent) {}

// MouseIn has it stay.
func (t *toast) MouseIn(*desktop.MouseEvent) {
	t.inside = true
	t.holds()
}

// MouseMoved has nothing to do.
func (t *toast) MouseMoved(*desktop.MouseEvent) {}

// MouseOut lets it go.
func (t *toast) MouseOut() {
	t.inside = false
	t.holds()
}

func (t *toast) write(_ fyne.Size, of colours) {
	t.back.StrokeWidth, t.back.StrokeColor = 1, of(ColorNameChipEdge)
	fill(t.back, of(ColorNameChip))
}

// lowToast is a toast's height with one line.
func lowToast() float32 { return Row() + Step/2 }

// heightFor lays the words out in a width, and returns the height that they need, at most so much.
func (t *toast) heightFor(width, most float32) float32 {
	room, foot := width-t.buttons(), float32(0)
	if t.stacks(width) {
		room, foot = width, lowToast()
	}
	if t.words.Size().Width != room {
		t.words.Resize(fyne.NewSize(room, t.words.Size().Height))
	}
	return max(min(max(t.words.MinSize().Height+foot, lowToast()), most), lowToast())
}

// stacks reports whether the buttons stand below the words: beside them these would be broken into
// letters.
func (t *toast) stacks(width float32) bool {
	return width-t.buttons() < leastWords*textScale()
}

// leastWords is the width beside the buttons from which words stand there, in text of plain size (our
// choice: two short words).
const leastWords = 10 * Step

// buttons is the width of the buttons at the right.
func (t *toast) buttons() (width float32) {
	for _, b := range []*PictureButton{t.act, t.cross} {
		if b.Visible() {
			width += b.MinSize().Width
		}
	}
	return width
}

func (t *toast) place(size fyne.Size) {
	t.back.Resize(size)
	x, top, room := size.Width, max(size.Height-lowToast(), 0), size.Height
	stacked := t.stacks(size.Width)
	if stacked {
		room = top
	}
	for _, b := range []*PictureButton{t.cross, t.act} {
		if b.Visible() {
			least := b.MinSize()
			x -= least.Width
			put(b, fyne.NewPos(x, top+(lowToast()-least.Height)/2), least)
		}
	}
	if stacked {
		x = size.Width
	}
	high := min(t.words.MinSize().Height, room)
	y := float32(0)
	if high < lowToast() {
		y = max((room-high)/2, 0)
	}
	put(t.scroll, fyne.NewPos(0, y), fyne.NewSize(max(x, 0), high))
}
