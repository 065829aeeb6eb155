package structure

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// openMenu shows what can be done with a row's local colour, and with the side that was meant.
func (l *FamilyList) openMenu(text wording.FamilyRowText, i Item, at fyne.Position, side colour.RGB) {
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", l.menuItems(text, i, side)...), l.Window.Canvas(), at)
	l.Changed()
}

// menuItems are its entries.
func (l *FamilyList) menuItems(text wording.FamilyRowText, i Item, side colour.RGB) (items []*fyne.MenuItem) {
	if text.Keep != "" {
		keep := fyne.NewMenuItem(language.Say("Keep"), func() { l.colours.judge(i, true) })
		keep.Checked = text.Kept
		if text.Cross == "" {
			keep.Label = language.Say("Show again")
		}
		items = append(items, keep)
	}
	items = append(items,
		fyne.NewMenuItem(language.Say("Go on in Colours"), func() { l.colours.GoOnFrom(side) }),
		fyne.NewMenuItem(language.Say("Copy %s", side.Hex()), func() { l.copy(side) }))
	if text.Cross != "" {
		items = append(items, fyne.NewMenuItem(language.Say("Not a local colour"), func() { l.colours.refuse(i) }))
	}
	return items
}

// copy puts a colour's code on the clipboard.
func (l *FamilyList) copy(c colour.RGB) { l.CopyText(c.Hex()) }
