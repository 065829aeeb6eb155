package structure

import (
	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// openMenu shows what can be done with a row's local colour, and with the side that was meant.
func (l *FamilyList) openMenu(text wording.FamilyRowText, i Item, at fyne.Position, side colour.RGB) {
	var rows []widgets.MenuRow
	add := func(item widgets.MenuItem) {
		rows = append(rows, widgets.MenuRow{Items: []widgets.MenuItem{item}})
	}
	if text.Keep != "" {
		words := language.Say("A local colour")
		if text.Cross == "" {
			words = language.Say("Show again")
		}
		add(widgets.MenuItem{Words: words, On: text.Kept, Do: func() { l.colours.judge(i, true) }})
	}
	add(widgets.MenuItem{Words: language.Say("Go on in Colours"), Do: func() { l.colours.GoOnFrom(side) }})
	add(widgets.MenuItem{Words: language.Say("Copy %s", side.Hex()), Do: func() { l.copy(side) }})
	if text.Cross != "" {
		add(widgets.MenuItem{Words: language.Say("Not a local colour"), Do: func() { l.colours.refuse(i) }})
	}
	l.OpenList(rows, at)
}

// copy puts a colour's code on the clipboard.
func (l *FamilyList) copy(c colour.RGB) { l.CopyText(c.Hex()) }
