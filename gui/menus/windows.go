package menus

import (
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Windows is the list of windows to follow.
type Windows struct {
	List   []Window // the topmost first
	Now    setup.Source
	Follow func(setup.Source)
}

// Window is one of them.
type Window struct {
	From      setup.Source
	Minimised bool
}

// Rows are the menu's: a window a row, by its title.
func (w Windows) Rows() []widgets.MenuRow {
	rows := []widgets.MenuRow{{Heading: "Follow"}}
	for _, window := range w.List {
		item := widgets.MenuItem{
			Icon: icons.Window, Words: windowName(window.From), On: window.From == w.Now.Whole(),
			Do: func() { w.Follow(window.From) },
		}
		if window.Minimised {
			item.Keys = wording.SayMinimised
		}
		rows = append(rows, widgets.MenuRow{Items: []widgets.MenuItem{item}})
	}
	return rows
}

// windowName is a window's title as it has room in a menu.
func windowName(from setup.Source) string {
	return widgets.Shortened(wording.SayWindow(from.Title, from.Class), nameLetters)
}
