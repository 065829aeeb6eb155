package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// MessageBar is the line between source bar and mirror: a sentence and one button, or a question
// with two below it. It takes no room while there is nothing to say.
type MessageBar struct {
	drawn
	row     *fyne.Container
	text    *widget.Label
	button  *Button // beside the sentence
	answers [2]*Button
	below   *fyne.Container // the row of answers
	beside  *fyne.Container
	resize  func()
}

// NewMessageBar returns a bar with nothing to say. It calls resize whenever it may ask for
// another height.
func NewMessageBar(keys Keys, resize func()) *MessageBar {
	m := &MessageBar{text: SmallLabel(), resize: resize}
	m.button = NewButton("", keys, nil)
	m.beside = container.NewCenter(m.button)
	for i := range m.answers {
		m.answers[i] = NewButton("", keys, nil)
	}
	m.below = container.NewHBox(layout.NewSpacer(), m.answers[0], m.answers[1])
	m.below.Hide()
	row := container.NewBorder(nil, m.below, nil, m.beside, m.text)
	m.row = add(&m.drawn, container.NewStack(newPanel(0), container.New(layout.NewCustomPaddedLayout(0, 0, Step, Step), row)))
	m.Hidden = true
	m.draw(m)
	return m
}

func (m *MessageBar) write(fyne.Size, colours) {}
func (m *MessageBar) place(size fyne.Size)     { m.row.Resize(size) }
func (m *MessageBar) minSize() fyne.Size       { return m.row.MinSize() }

// mostLetters is how many letters are shown of a sentence, of which a path may be a part (our
// choice): to lay out a very long one takes long.
const mostLetters = 500

// Set shows a sentence and a button; no sentence hides the bar.
func (m *MessageBar) Set(sentence, button string, tapped func()) {
	m.button.SetText(button)
	m.button.OnTapped = tapped
	m.below.Hide()
	m.beside.Show()
	m.say(sentence)
}

// SetQuestion shows a sentence and two buttons, the first for yes.
func (m *MessageBar) SetQuestion(sentence string, words [2]string, tapped [2]func()) {
	for i, b := range m.answers {
		b.SetText(words[i])
		b.OnTapped = tapped[i]
	}
	m.beside.Hide()
	m.below.Show()
	m.say(sentence)
}

func (m *MessageBar) say(sentence string) {
	m.text.SetText(Shortened(sentence, mostLetters))
	if sentence != "" {
		m.Show()
	} else {
		m.Hide()
	}
	m.resize()
}

// Text returns the sentence that is seen; "" for none.
func (m *MessageBar) Text() string { return m.text.Text }
