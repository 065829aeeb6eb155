package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// KeyActs are what a choice of a key asks for.
type KeyActs struct {
	Listens func(on bool)                                      // it begins to listen, or has ended
	Chosen  func(held fyne.KeyModifier, key fyne.KeyName) bool // a key was pressed; false: that one can't be
	Cleared func()                                             // there is to be none
}

// KeyChoice shows a key, and chooses another: pressed, it listens for the next. Esc ends that
// without a change, Delete with no key.
type KeyChoice struct {
	drawn
	explained
	words string
	acts  KeyActs

	listens bool
	held    fyne.KeyModifier
	taken   bool // the key that ended it is still down: what it stands for is not meant

	back, edge *canvas.Rectangle
	text       *canvas.Text
}

// Words of a choice of a key.
const (
	noKeyWords   language.Words = "none"
	pressAKey    language.Words = "Press keys"
	keyChoiceTip language.Words = "Change, Enter; Delete clears"
)

// modifierKeys are the keys that are held.
var modifierKeys = map[fyne.KeyName]fyne.KeyModifier{
	desktop.KeyControlLeft: fyne.KeyModifierControl, desktop.KeyControlRight: fyne.KeyModifierControl,
	desktop.KeyAltLeft: fyne.KeyModifierAlt, desktop.KeyAltRight: fyne.KeyModifierAlt,
	desktop.KeyShiftLeft: fyne.KeyModifierShift, desktop.KeyShiftRight: fyne.KeyModifierShift,
	desktop.KeySuperLeft: fyne.KeyModifierSuper, desktop.KeySuperRight: fyne.KeyModifierSuper,
}

// NewKeyChoice returns a choice that shows words, "" for no key.
func NewKeyChoice(words string, keys Keys, tips *Tips, acts KeyActs) *KeyChoice {
	k := &KeyChoice{words: words, acts: acts}
	k.focus = focus{keys: keys, owner: k, changed: k.redraw}
	k.tips, k.tip = tips, keyChoiceTip.String()
	k.back, k.text = add(&k.drawn, newPanelBox()), k.addText(TextSize, fyne.TextStyle{})
	k.edge = add(&k.drawn, newFocusLine(Radius+FocusGap))
	k.draw(k)
	return k
}

// Set shows another key; "" is none.
func (k *KeyChoice) Set(words string) {
	k.words = words
	k.redraw()
}

// Words are what is shown.
func (k *KeyChoice) Words() string { return k.text.Text }

// Tapped begins to listen, or ends it.
func (k *KeyChoice) Tapped(*fyne.PointEvent) {
	k.tips.Leave()
	if k.listens {
		k.end()
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(k); c != nil {
		c.Focus(k)
		k.tips.Leave() // it came with the focus
	}
	k.listens, k.held = true, 0
	k.acts.Listens(true)
	k.redraw()
}

func (k *KeyChoice) end() {
	if k.listens {
		k.listens = false
		k.acts.Listens(false)
		k.redraw()
	}
}

// FocusLost ends listening: the keys go elsewhere.
func (k *KeyChoice) FocusLost() {
	k.end()
	k.taken = false
	k.explained.FocusLost()
}

// KeyDown hears what is pressed together.
func (k *KeyChoice) KeyDown(e *fyne.KeyEvent) {
	if !k.listens {
		return
	}
	if bit, ok := modifierKeys[e.Name]; ok {
		k.held |= bit
		return
	}
	k.taken = true
	switch {
	case k.held == 0 && e.Name == fyne.KeyEscape:
		k.end()
	case k.held == 0 && deletes(e):
		k.acts.Cleared()
		k.end()
	case k.acts.Chosen(k.held, e.Name):
		k.end()
	}
}

// KeyUp hears what is let go.
func (k *KeyChoice) KeyUp(e *fyne.KeyEvent) {
	if bit, ok := modifierKeys[e.Name]; ok {
		k.held &^= bit
	} else {
		k.taken = false
	}
}

// TypedKey begins to listen with Space and Enter, and clears with Delete.
func (k *KeyChoice) TypedKey(e *fyne.KeyEvent) {
	switch {
	case k.listens || k.taken:
	case presses(e):
		k.Tapped(nil)
	case deletes(e):
		k.acts.Cleared()
	default:
		k.keys.TypedKey(e.Name)
	}
}

// TypedRune goes to the window's keys, unless it is what was chosen.
func (k *KeyChoice) TypedRune(r rune) {
	if !k.listens && !k.taken {
		k.focus.TypedRune(r)
	}
}

// TypedShortcut goes to the window's keys, unless it is what was chosen.
func (k *KeyChoice) TypedShortcut(s fyne.Shortcut) {
	if !k.listens && !k.taken {
		k.focus.TypedShortcut(s)
	}
}

// AcceptsTab reports whether Tab is a key like others: while it listens.
func (k *KeyChoice) AcceptsTab() bool { return k.listens }

func (k *KeyChoice) write(size fyne.Size, of colours) {
	ground, words, ink := ColorNameRaised, wording.SayKeys(k.words), theme.ColorNameForeground
	switch {
	case k.listens:
		ground, words, ink = ColorNameOn, pressAKey.String(), ColorNameFocusLine
	case k.pointed:
		ground = ColorNamePointed
	}
	if words == "" {
		words, ink = noKeyWords.String(), ColorNameQuiet
	}
	fillEdged(k.back, ground, of)
	say(k.text, cutWords(words, size.Width-2*entrySide, textWidth), of(ink))
	showFocus(k.edge, k.focused, of)
}

func (k *KeyChoice) place(size fyne.Size) {
	put(k.back, fyne.NewPos(0, 1), size.SubtractWidthHeight(0, 2)) // choices below each other stay apart
	putAround(k.edge, fyne.Position{}, size)
	placeText(k.text, entrySide, (size.Height-k.text.MinSize().Height)/2)
}

// minSize has room for what asks for a key, and for most.
func (k *KeyChoice) minSize() fyne.Size {
	return fyne.NewSize(textWidth(wording.SayKeys("Ctrl+Alt+Shift+M"))+2*entrySide, Row())
}
