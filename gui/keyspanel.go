package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// newKeysSheet lists every key: first those that work in every program, which are chosen here, then
// those of the table that the window itself obeys. It says below in which file messages are kept, if
// there is one.
func newKeysSheet(d *Desk) *widgets.Sheet {
	rows := append(d.parts.keys.Rows(), widgets.FormRow{Note: wording.SayKeysAbove.String()})
	for _, c := range append(commands(), fixedKeys()...) {
		if c.keys != "" {
			rows = append(rows, widgets.FormRow{Name: c.name, Control: widgets.NewEndWords(wording.SayKeys(c.keys)), Tight: true})
		}
	}
	if path := d.options.Messages; path != "" {
		rows = append(rows, widgets.FormRow{Note: language.Say("Messages of the program are kept in %s", path)})
	}
	return widgets.NewSheet(icons.Menu, language.Say("Keys"), nil, widgets.NewForm(rows...), d, func() { d.openPanel(panelNone) })
}

// shortcuts are the keys with Ctrl, as Fyne wants them registered.
func shortcuts() []fyne.Shortcut {
	all := []fyne.Shortcut{&fyne.ShortcutUndo{}, &fyne.ShortcutRedo{}, &fyne.ShortcutCopy{}, &fyne.ShortcutCut{},
		&desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift}}
	for _, c := range commands() {
		if c.ctrl != "" && c.ctrl != fyne.KeyZ && c.ctrl != fyne.KeyY {
			all = append(all, &desktop.CustomShortcut{KeyName: c.ctrl, Modifier: fyne.KeyModifierShortcutDefault})
		}
	}
	return all
}
