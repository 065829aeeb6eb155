package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// MessageBar is the line between source bar and mirror: a sentence and one button. It takes
// no room while there is nothing to say.
type MessageBar struct {
	Box    *fyne.Container
	back   *canvas.Rectangle
	text   *widget.Label
	button *Button
	resize func() // the page's rows have to be laid anew
}

// NewMessageBar returns an empty bar; resize is called after it asks for another height.
func NewMessageBar(keys Keys, resize func()) *MessageBar {
	b := &MessageBar{back: canvas.NewRectangle(nil), text: widget.NewLabel(""), resize: resize}
	b.text.Wrapping = fyne.TextWrapWord
	b.text.SizeName = theme.SizeNameCaptionText
	b.button = NewButton("", keys, nil)
	row := container.NewBorder(nil, nil, nil, container.NewCenter(b.button), b.text)
	b.Box = container.New(layout.NewStackLayout(), b.back, container.New(layout.NewCustomPaddedLayout(0, 0, Step, Step), row))
	b.Box.Hide()
	return b
}

// Set shows a sentence with a button; no sentence hides the bar.
func (b *MessageBar) Set(sentence, button string, tapped func()) {
	b.text.SetText(sentence)
	b.button.SetText(button)
	b.button.OnTapped = tapped
	b.Box.Hidden = sentence == ""
	b.resize()
}

// Text returns the sentence that is shown, "" if none is.
func (b *MessageBar) Text() string { return b.text.Text }

// Colour gives the bar a theme's colours.
func (b *MessageBar) Colour(th fyne.Theme, v fyne.ThemeVariant) {
	b.back.FillColor = th.Color(ColorNamePanel, v)
	b.back.Refresh()
}
