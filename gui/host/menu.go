package host

import (
	"fyne.io/fyne/v2"

	"app.tonedesk/gui/widgets"
)

// OpenMenu shows a menu at a point of the window. gone is called when it is closed; nil for nobody.
func (h *Host) OpenMenu(rows []widgets.MenuRow, at fyne.Position, gone func()) *widgets.Menu {
	h.Tips.Leave()
	m := widgets.NewMenu(rows, h.Keys, func() {
		if gone != nil {
			gone()
		}
		h.Changed()
	})
	m.ShowAt(h.Window.Canvas(), at)
	h.Changed()
	return m
}

// Menu is the menu that lies over the window; nil for none.
func (h *Host) Menu() *widgets.Menu {
	m, _ := h.Window.Canvas().Overlays().Top().(*widgets.Menu)
	return m
}

// OpenList is OpenMenu for a list of words.
func (h *Host) OpenList(rows []widgets.MenuRow, at fyne.Position) { h.OpenMenu(rows, at, nil) }
