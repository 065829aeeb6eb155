package widgets

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// Line is one line of words, the longest of several forms that has room.
type Line struct {
	drawn
	forms        []string
	quiet, right bool
	text         *canvas.Text
}

// NewLine returns a line of words, of which the longest form comes first.
func NewLine(forms ...string) *Line {
	l := &Line{forms: forms}
	l.text = l.addText(l.size, fyne.TextStyle{})
	l.draw(l)
	return l
}

// QuietForms is NewLine in the small size and the quiet grey.
func QuietForms(forms ...string) *Line {
	l := NewLine(forms...)
	l.quiet = true
	return l
}

// AtRight stands the words at the right of their room.
func (l *Line) AtRight() *Line {
	l.right = true
	return l
}

// Set gives the line other words.
func (l *Line) Set(forms ...string) {
	if !slices.Equal(forms, l.forms) {
		l.forms = forms
		l.redraw()
	}
}

// Words are the words in full.
func (l *Line) Words() string { return nth(l.forms, 0) }

func (l *Line) size() float32 {
	if l.quiet {
		return SmallSize()
	}
	return TextSize()
}

func (l *Line) write(size fyne.Size, of colours) {
	ink := of(theme.ColorNameForeground)
	if l.quiet {
		ink = of(ColorNameQuiet)
	}
	words := ""
	if len(l.forms) > 0 {
		words = longestFitting(size.Width, l.size(), l.forms...)
	}
	say(l.text, words, ink)
}

func (l *Line) place(size fyne.Size) {
	x, text := float32(0), l.text.MinSize()
	if l.right {
		x = size.Width - text.Width
	}
	placeText(l.text, x, (size.Height-text.Height)/2)
}

// minSize is that of the shortest form.
func (l *Line) minSize() fyne.Size {
	words := ""
	if len(l.forms) > 0 {
		words = l.forms[len(l.forms)-1]
	}
	return fyne.MeasureText(words, l.size(), fyne.TextStyle{}).Max(fyne.NewSize(0, round(17*textScale())))
}
