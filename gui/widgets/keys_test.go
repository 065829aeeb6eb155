package widgets

import "fyne.io/fyne/v2"

// heardKeys notes what a widget hands on to the window.
type heardKeys struct {
	runes     string
	keys      []fyne.KeyName
	shortcuts int
	revealed  []fyne.CanvasObject
}

func (h *heardKeys) TypedRune(r rune) { h.runes += string(r) }
func (h *heardKeys) TypedKey(k fyne.KeyName) bool {
	h.keys = append(h.keys, k)
	return true
}
func (h *heardKeys) TypedShortcut(fyne.Shortcut)   { h.shortcuts++ }
func (h *heardKeys) Reveal(part fyne.CanvasObject) { h.revealed = append(h.revealed, part) }
