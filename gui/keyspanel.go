package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
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
		rows.Add(container.New(&keyRow{}, keys, name))
	}
	if messages != "" {
		rows.Add(quietLine("Messages of the program are kept in " + messages))
	}
	return rows
}

// keyRow stands the keys in a column of their own.
type keyRow struct{}

const keyColumn = 13 * Step

// Layout puts the keys left and what they do right of them.
func (keyRow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(keyColumn, size.Height))
	o[1].Move(fyne.NewPos(keyColumn, 0))
	o[1].Resize(fyne.NewSize(size.Width-keyColumn, size.Height))
}

// MinSize is as high as the words, wrapped.
func (keyRow) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(keyColumn+8*Step, max(o[0].MinSize().Height, o[1].MinSize().Height)-Step)
}

// quietLine is an explanation under a setting.
func quietLine(text string) fyne.CanvasObject {
	line := widget.NewRichText(&widget.TextSegment{Text: text, Style: widget.RichTextStyle{
		ColorName: ColorNameQuiet, SizeName: theme.SizeNameCaptionText,
	}})
	line.Wrapping = fyne.TextWrapWord
	return container.New(layout.NewCustomPaddedLayout(-Step, -Step/2, 0, 0), line)
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
