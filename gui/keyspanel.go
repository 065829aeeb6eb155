package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/widgets"
)

// newKeysPanel lists every key, from the table that the window itself obeys, and says below
// in which file messages are kept, if there is one.
func newKeysPanel(messages string) fyne.CanvasObject {
	rows := container.NewVBox()
	for _, c := range append(commands(), fixedKeys...) {
		if c.keys == "" {
			continue
		}
		keys := widget.NewLabel(c.keys)
		keys.TextStyle.Monospace = true
		name := widget.NewLabel(c.name)
		name.Wrapping = fyne.TextWrapWord
		rows.Add(container.New(&widgets.KeyRow{}, keys, name))
	}
	if messages != "" {
		rows.Add(widgets.QuietLine("Messages of the program are kept in " + messages))
	}
	return rows
}

// shortcuts are the keys with Ctrl, as Fyne wants them registered.
func shortcuts() []fyne.Shortcut {
	all := []fyne.Shortcut{&fyne.ShortcutUndo{}, &fyne.ShortcutRedo{}, &fyne.ShortcutCopy{},
		&desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift}}
	for _, c := range commands() {
		if c.ctrl != "" && c.ctrl != fyne.KeyZ && c.ctrl != fyne.KeyY {
			all = append(all, &desktop.CustomShortcut{KeyName: c.ctrl, Modifier: fyne.KeyModifierShortcutDefault})
		}
	}
	return all
}
