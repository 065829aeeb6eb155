package menus

import (
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Screen is one that the desktop shares with every program.
type Screen struct {
	From          setup.Source
	Name          string // as the desktop calls it
	Width, Height int    // pixels
}

// Screens are a menu's rows: a screen a row.
func Screens(list []Screen, watch func(setup.Source)) []widgets.MenuRow {
	rows := []widgets.MenuRow{{Heading: wording.ShareScreen.String()}}
	for _, s := range list {
		rows = append(rows, widgets.MenuRow{Items: []widgets.MenuItem{{
			Icon: icons.Region, Words: widgets.Shortened(s.Name, nameLetters), Keys: wording.SizeSay(s.Width, s.Height),
			Do: func() { watch(s.From) },
		}}})
	}
	return rows
}
