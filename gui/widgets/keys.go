package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Keys are the keys of the window. A widget that has the focus hands on to them what it has
// no use for, so that they work wherever the focus is.
type Keys interface {
	TypedRune(rune)                // a character was typed
	TypedKey(fyne.KeyName) bool    // a key without a character; false if it stands for nothing
	TypedShortcut(fyne.Shortcut)   // a key together with Ctrl
	Reveal(part fyne.CanvasObject) // a part got the focus, and is to be seen
}

// focus is embedded in a widget that takes the keyboard's focus.
type focus struct {
	keys    Keys
	owner   fyne.CanvasObject // the widget, in which this is embedded
	focused bool              // and it shows
	quiet   bool              // the next time it doesn't
	changed func()            // shows whether the widget is focused
}

// Quietly keeps the outline away the next time that the focus comes: no key has moved it.
func (f *focus) Quietly() { f.quiet = true }

// FocusGained reveals the widget and shows its outline.
func (f *focus) FocusGained() {
	f.keys.Reveal(f.owner)
	f.focused, f.quiet = !f.quiet, false
	f.changed()
}

// FocusLost takes the outline away.
func (f *focus) FocusLost() {
	f.focused = false
	f.changed()
}

// TypedRune goes to the window's keys, but for the space: it has pressed the widget.
func (f *focus) TypedRune(r rune) {
	if r != ' ' {
		f.keys.TypedRune(r)
	}
}

// TypedShortcut goes to the window's keys.
func (f *focus) TypedShortcut(s fyne.Shortcut) { f.keys.TypedShortcut(s) }

// shiftFocus is a focus that knows whether Shift is held: Fyne leaves it out of typed keys.
type shiftFocus struct {
	focus
	shift bool
}

// KeyDown watches the shift key.
func (f *shiftFocus) KeyDown(e *fyne.KeyEvent) { f.watch(e, true) }

// KeyUp watches the shift key.
func (f *shiftFocus) KeyUp(e *fyne.KeyEvent) { f.watch(e, false) }

func (f *shiftFocus) watch(e *fyne.KeyEvent, down bool) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		f.shift = down
	}
}

// FocusLost forgets the shift key, whose coming up another widget will hear.
func (f *shiftFocus) FocusLost() {
	f.shift = false
	f.focus.FocusLost()
}

// quits reports whether keys are those that end the program: where nothing else goes on to the window's
// keys, they do.
func quits(s fyne.Shortcut) bool {
	c, ok := s.(*desktop.CustomShortcut)
	return ok && c.KeyName == fyne.KeyQ && c.Modifier&fyne.KeyModifierShortcutDefault != 0
}

// presses reports whether a key presses what has the focus.
func presses(e *fyne.KeyEvent) bool {
	return e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter || e.Name == fyne.KeySpace
}

// deletes reports whether a key takes away what has the focus.
func deletes(e *fyne.KeyEvent) bool { return e.Name == fyne.KeyDelete || e.Name == fyne.KeyBackspace }
