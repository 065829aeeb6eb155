package widgets

import (
	"math"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Entry is Fyne's line to type in, which is revealed when it gets the focus, and left with Esc.
type Entry struct {
	widget.Entry

	OnEscape func() // Esc was pressed; nil for nothing to do
	OnLeft   func() // the focus has gone; nil for nothing to do

	Most   func() int // how many letters it takes; nil for any number
	OnFull func()     // more were typed or pasted, and are not taken

	Brief string // stands for the placeholder where that finds no room; "" for none

	keys  Keys
	plain string // the placeholder where there is room
}

// Resize shows the placeholder that fits: what is too long would scroll.
func (e *Entry) Resize(size fyne.Size) {
	if words := e.placeholder(size.Width); words != e.PlaceHolder {
		e.SetPlaceHolder(words)
	}
	e.Entry.Resize(size)
}

func (e *Entry) placeholder(width float32) string {
	if e.Brief == "" {
		return e.PlaceHolder
	}
	if e.Icon != nil {
		width -= SmallIcon() + Step
	}
	return longestFitting(width-2*Step, TextSize(), e.plain, e.Brief)
}

// wish is the width in which the short placeholder is seen.
func (e *Entry) wish() float32 {
	if e.Brief == "" {
		return 0
	}
	wide := textWidth(e.Brief) + 2*Step + 2 // the cursor
	if e.Icon != nil {
		wide += SmallIcon() + Step
	}
	return wide
}

// NewEntry returns an empty line, which shows the placeholder while nothing is typed.
func NewEntry(keys Keys, placeholder string) *Entry {
	e := &Entry{keys: keys, plain: placeholder}
	e.PlaceHolder = placeholder
	e.ExtendBaseWidget(e)
	return e
}

// NewTextEntry returns one for longer texts: it breaks them into lines, of which it shows a few
// at a time. In one line a text of some thousand letters is wider than what a graphics card
// draws at once, and nothing of it is seen. Return ends typing, as in a line.
func NewTextEntry(keys Keys, placeholder string) *Entry {
	e := NewEntry(keys, placeholder)
	e.MultiLine, e.Wrapping = true, fyne.TextWrapWord
	e.SetMinRowsVisible(textRows)
	return e
}

// textRows is how many lines of a longer text are seen.
const textRows = 1

// CreateRenderer draws it as the toolkit does, but with its letters in the middle of its height.
func (e *Entry) CreateRenderer() fyne.WidgetRenderer {
	return entryLook{e.Entry.CreateRenderer()}
}

// entryLook is the toolkit's, which leaves all room that a row has at the foot: large letters would
// stand high.
type entryLook struct{ fyne.WidgetRenderer }

// Layout moves what stands on the ground and its edge, which are the toolkit's first two.
func (r entryLook) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	spare := (size.Height - r.MinSize().Height) / 2
	for _, o := range r.Objects()[2:] {
		if icon, ok := o.(*canvas.Image); ok {
			icon.Move(fyne.NewPos(icon.Position().X, (size.Height-icon.Size().Height)/2))
		} else if spare > 0 {
			put(o, o.Position().AddXY(0, spare), o.Size().SubtractWidthHeight(0, spare))
		}
	}
}

// FocusGained reveals the line.
func (e *Entry) FocusGained() {
	e.keys.Reveal(e)
	e.Entry.FocusGained()
}

// FocusLost tells that the line was left.
func (e *Entry) FocusLost() {
	e.Entry.FocusLost()
	if e.OnLeft != nil {
		e.OnLeft()
	}
}

// TypedRune takes a letter, if there is room.
func (e *Entry) TypedRune(r rune) {
	if e.Disabled() || e.room() > 0 {
		e.Entry.TypedRune(r)
		return
	}
	e.OnFull()
}

// TypedShortcut pastes what there is room for.
func (e *Entry) TypedShortcut(s fyne.Shortcut) {
	if paste, ok := s.(*fyne.ShortcutPaste); ok && e.Most != nil && !e.Disabled() {
		letters := []rune(paste.Clipboard.Content())
		room := e.room()
		s = &fyne.ShortcutPaste{Clipboard: held{paste.Clipboard, string(letters[:min(room, len(letters))])}}
		if len(letters) > room {
			defer e.OnFull()
			if room == 0 {
				return // pasting nothing would delete what is selected
			}
		}
	}
	e.Entry.TypedShortcut(s)
}

// room returns how many letters can be typed, over what is selected.
func (e *Entry) room() int {
	if e.Most == nil {
		return math.MaxInt
	}
	return max(0, e.Most()-utf8.RuneCountInString(e.Text)+utf8.RuneCountInString(e.SelectedText()))
}

// held is a clipboard that gives a part of what it holds.
type held struct {
	fyne.Clipboard
	part string
}

func (h held) Content() string { return h.part }

// TypedKey tells of Esc, and of Return, which makes no new line; all other keys edit the text.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape && e.OnEscape != nil:
		e.OnEscape()
	case k.Name == fyne.KeyEscape:
	case e.MultiLine && (k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter):
		if e.OnSubmitted != nil {
			e.OnSubmitted(e.Text)
		}
	default:
		e.Entry.TypedKey(k)
	}
}
