package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
)

// Link is quiet words, underlined, that can be pressed.
type Link struct {
	drawn
	focus
	words [2]string // the second where the first finds no room
	do    func()

	text        *canvas.Text
	under, line *canvas.Rectangle
}

// NewLink returns words, and shorter ones, that do something when they are pressed.
func NewLink(words [2]string, keys Keys, do func()) *Link {
	l := &Link{words: words, do: do}
	l.focus = focus{keys: keys, owner: l, changed: l.redraw}
	l.text, l.under = l.addText(TextSize, fyne.TextStyle{}), l.addBox()
	l.line = add(&l.drawn, newFocusLine(Radius+FocusGap))
	l.draw(l)
	return l
}

// Tapped presses it.
func (l *Link) Tapped(*fyne.PointEvent) { l.do() }

// Cursor is the hand.
func (l *Link) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey presses it with Space and Enter.
func (l *Link) TypedKey(e *fyne.KeyEvent) {
	if presses(e) {
		l.do()
	} else {
		l.keys.TypedKey(e.Name)
	}
}

func (l *Link) write(size fyne.Size, of colours) {
	say(l.text, longestFitting(size.Width, TextSize(), l.words[0], l.words[1]), of(ColorNameQuiet))
	fill(l.under, of(ColorNameQuiet))
	showFocus(l.line, l.focused, of)
}

func (l *Link) place(size fyne.Size) {
	text := l.text.MinSize()
	x, y := (size.Width-text.Width)/2, (size.Height-text.Height)/2
	placeText(l.text, x, y)
	put(l.under, fyne.NewPos(x, y+text.Height), fyne.NewSize(text.Width, 1))
	putAround(l.line, fyne.NewPos(x, y), text)
}

func (l *Link) minSize() fyne.Size {
	return fyne.NewSize(fyne.MeasureText(l.words[0], TextSize(), fyne.TextStyle{}).Width, Row())
}
