package host

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"app.tonedesk/gui/widgets"
)

// shownDialog is a dialog with what of it lies over the window.
type shownDialog struct {
	title   string
	dialog  dialog.Dialog
	overlay fyne.CanvasObject
}

// ShowDialog shows a dialog over the window, or shows it again. Esc closes the topmost.
func (h *Host) ShowDialog(title string, d dialog.Dialog) {
	d.Show()
	over := h.Window.Canvas().Overlays()
	h.dialogs = slices.DeleteFunc(h.dialogs, func(s shownDialog) bool {
		return s.dialog == d || !slices.Contains(over.List(), s.overlay)
	})
	h.dialogs = append(h.dialogs, shownDialog{title, d, over.Top()})
	h.Changed()
}

// Asks says what the topmost dialog or menu is about; "" if none lies over the window, whose
// keys are to work then only.
func (h *Host) Asks() string {
	top := h.Window.Canvas().Overlays().Top()
	if top == nil {
		return ""
	}
	for _, s := range h.dialogs {
		if s.overlay == top {
			return s.title
		}
	}
	return "menu"
}

// CloseDialog closes the topmost dialog or menu, with no for an answer.
func (h *Host) CloseDialog() {
	top := h.Window.Canvas().Overlays().Top()
	if top == nil {
		return
	}
	if i := slices.IndexFunc(h.dialogs, func(s shownDialog) bool { return s.overlay == top }); i >= 0 {
		h.dialogs[i].dialog.Dismiss()
	} else {
		top.Hide()
	}
	if h.Asks() == "" {
		h.FocusMirror()
	}
	h.Changed()
}

// Choice is an answer to a question.
type Choice struct {
	Name string
	Do   func() // nil: nothing but close the question
}

// Question asks with these answers, one below the other; the first is at hand, so it is
// one that harms nothing. Esc does what esc says. The toolkit's own buttons keep Esc for
// themselves.
func (h *Host) Question(title string, content fyne.CanvasObject, esc func(), choices ...Choice) {
	box := container.NewVBox(content)
	d := dialog.NewCustomWithoutButtons(title, box, h.Window)
	answered := esc
	d.SetOnClosed(func() {
		h.FocusMirror()
		if answered != nil {
			answered()
		}
	})
	var first *widgets.Button
	for _, c := range choices {
		b := widgets.NewButton(c.Name, h.Keys, func() {
			answered = c.Do
			d.Hide()
		})
		if first == nil {
			first = b
		}
		box.Add(b)
	}
	if by := h.Window.Canvas().Focused(); by == nil || by == fyne.Focusable(h.Mirror) {
		first.Quietly() // a click has asked, or a key of the window's: none that moves the focus
	}
	d.Resize(fyne.NewSize(45*widgets.Step, 0)) // where the window has the room
	h.ShowDialog(title, d)
	h.Window.Canvas().Focus(first)
}
