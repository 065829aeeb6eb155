package widgets

import (
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Entry is Fyne's line to type in, which is revealed when it gets the focus, and left with Esc.
type Entry struct {
	widget.Entry

	OnEscape func() // Esc was pressed; nil for nothing to do
	OnLeft   func() // the focus has gone; nil for nothing to do

	Most   func() int // how many letters it takes; nil for lineMost
	OnFull func()     // more were typed or pasted, and are not taken; nil for nothing to do

	Brief string // stands for the placeholder where that finds no room; "" for none

	keys  Keys
	plain string            // the placeholder where there is room
	rows  *container.Scroll // what scrolls the lines of a longer text; nil before it is drawn
	seen  *seenLines        // of which those in sight are drawn; nil before that, or if all are
	busy  bool              // it is being changed
	typed bool              // what is written is all that changes
}

// Resize shows the placeholder that fits: what is too long would scroll.
func (e *Entry) Resize(size fyne.Size) {
	if words := e.placeholder(size.Width); words != e.PlaceHolder {
		e.SetPlaceHolder(words)
	}
	e.laidOut(size.Width, "", func() { e.Entry.Resize(size) })
}

// laidOut does what has the text broken into lines of a width; more is what it writes beside the text
// that is there.
func (e *Entry) laidOut(width float32, more string, do func()) {
	if !e.MultiLine {
		do()
		return
	}
	loose := widthsOf(theme.TextSize()).measuredLoosely(e.Text, more)
	if e.busy {
		breaking(width, loose, do)
		return
	}
	e.busy = true
	defer func() { e.busy = false }()
	if told := e.OnChanged; told != nil {
		e.OnChanged = func(text string) { asEver(func() { told(text) }) }
		defer func() { e.OnChanged = told }()
	}
	breaking(width, loose, func() {
		do()
		if r := e.rows; r != nil && r.Content.Size() != r.Content.MinSize().Max(r.Size()) {
			r.Refresh() // else the next frame would have it laid out, and all of it be measured
		}
		if e.seen != nil {
			e.seen.changed(e.Text)
		}
	})
	if loose && e.seen != nil {
		e.seen.at.Move(e.CursorPosition()) // among letters as they are drawn
	}
}

// moved shows other lines of a longer text after what scrolls them has moved.
func (e *Entry) moved() {
	if !e.busy && e.seen != nil {
		e.laidOut(e.Size().Width, "", func() { e.seen.moved(e.Text) })
	}
}

// changed does the same in the width that it has.
func (e *Entry) changed(do func()) { e.laidOut(e.Size().Width, "", do) }

// CreateRenderer draws it as the toolkit does, but with its letters in the middle of its height, and
// the lines broken.
func (e *Entry) CreateRenderer() (r fyne.WidgetRenderer) {
	e.changed(func() {
		r = entryLook{e.Entry.CreateRenderer(), e}
		if !e.MultiLine {
			return
		}
		for _, o := range r.Objects() {
			if rows, is := o.(*container.Scroll); is {
				e.rows = rows
			}
		}
		r.Layout(e.Size())
		r.Refresh()
		e.seen, e.OnCursorChanged = newSeenLines(e.rows), e.moved
		e.rows.OnScrolled = func(fyne.Position) { e.moved() }
	})
	return r
}

// Refresh draws it anew.
func (e *Entry) Refresh() { e.changed(e.Entry.Refresh) }

// SetText has it show a text.
func (e *Entry) SetText(text string) {
	e.laidOut(e.Size().Width, text, func() { e.Entry.SetText(text) })
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

// lineMost is how many letters a line takes of which nobody says how many it may have: more than
// anybody types, and laid out in milliseconds. A clipboard may hold megabytes. Our choice.
const lineMost = 1000

// textRows is how many lines of a longer text are seen.
const textRows = 1

// entryLook is the toolkit's, which leaves all room that a row has at the foot: large letters would
// stand high.
type entryLook struct {
	fyne.WidgetRenderer
	entry *Entry
}

// Refresh draws it as the toolkit does, but what is written alone if nothing else has changed.
func (r entryLook) Refresh() {
	if r.entry.typed && r.entry.seen != nil {
		r.entry.seen.typed()
		return
	}
	r.WidgetRenderer.Refresh()
}

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
	e.changed(e.Entry.FocusGained)
}

// FocusLost tells that the line was left.
func (e *Entry) FocusLost() {
	e.changed(e.Entry.FocusLost)
	if e.OnLeft != nil {
		e.OnLeft()
	}
}

// TypedRune takes a letter, if there is room.
func (e *Entry) TypedRune(r rune) {
	if e.Disabled() || e.room() > 0 {
		e.writing(string(r), func() { e.Entry.TypedRune(r) })
		return
	}
	e.full()
}

// writing does what writes more, and so changes the text and the cursor alone.
func (e *Entry) writing(more string, do func()) {
	e.typed = true
	defer func() { e.typed = false }()
	e.laidOut(e.Size().Width, more, do)
}

func (e *Entry) full() {
	if e.OnFull != nil {
		e.OnFull()
	}
}

// TypedShortcut pastes what there is room for. The toolkit's line has no use for the keys that quit, and
// would keep them.
func (e *Entry) TypedShortcut(s fyne.Shortcut) {
	if quits(s) {
		e.keys.TypedShortcut(s)
		return
	}
	if paste, ok := s.(*fyne.ShortcutPaste); ok && !e.Disabled() {
		letters := []rune(paste.Clipboard.Content())
		room := e.room()
		more := string(letters[:min(room, len(letters))])
		s = &fyne.ShortcutPaste{Clipboard: held{paste.Clipboard, more}}
		if len(letters) > room {
			defer e.full()
			if room == 0 {
				return // pasting nothing would delete what is selected
			}
		}
		e.writing(more, func() { e.Entry.TypedShortcut(s) })
		return
	}
	e.changed(func() { e.Entry.TypedShortcut(s) })
}

// room returns how many letters can be typed, over what is selected.
func (e *Entry) room() int {
	most := lineMost
	if e.Most != nil {
		most = e.Most()
	}
	return max(0, most-utf8.RuneCountInString(e.Text)+utf8.RuneCountInString(e.SelectedText()))
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
		e.changed(func() { e.Entry.TypedKey(k) })
	}
}
