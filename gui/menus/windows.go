package menus

import (
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Windows is the list of windows to follow.
type Windows struct {
	List   []Window // the topmost first
	Now    setup.Source
	Follow func(setup.Source)
	Point  func() // has the painter point at one; nil where there is no way to do it
}

// Window is one of them.
type Window struct {
	From          setup.Source
	Minimised     bool
	Width, Height int // of its inside, pixels
}

// Rows are the menu's: the way to point at one, then a window a row, by its title. Those of the
// same title and program are told apart by their size.
func (w Windows) Rows() []widgets.MenuRow {
	rows := []widgets.MenuRow{{Heading: language.Say("Follow")}}
	add := func(item widgets.MenuItem) { rows = append(rows, widgets.MenuRow{Items: []widgets.MenuItem{item}}) }
	if w.Point != nil {
		add(widgets.MenuItem{Icon: icons.UnderPointer, Words: wording.PointAtIt.String(), Do: w.Point})
	}
	for _, window := range w.List {
		item := widgets.MenuItem{
			Icon: icons.Window, Words: windowName(window.From), On: window.From.SameWindow(w.Now),
			Do: func() { w.Follow(window.From) },
		}
		switch {
		case window.Minimised:
			item.Keys = wording.SayMinimised.String()
		case w.namesakes(window) > 1:
			item.Keys = wording.SizeSay(window.Width, window.Height)
		}
		add(item)
	}
	return rows
}

// namesakes counts the windows of a window's title and program, itself among them.
func (w Windows) namesakes(window Window) (n int) {
	for _, other := range w.List {
		if other.From.Title == window.From.Title && other.From.Class == window.From.Class {
			n++
		}
	}
	return n
}

// windowName is a window's title as it has room in a menu.
func windowName(from setup.Source) string {
	return widgets.Shortened(wording.SayWindow(from.Title, from.Class), nameLetters)
}
