package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/menus"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
)

// openMenu shows the commands, at a point of the window.
func openMenu(d *Desk, at fyne.Position) { d.OpenMenu(menuRows(d), at, nil) }

// menuRows are the commands that stand in the menu.
func menuRows(d *Desk) (rows []widgets.MenuRow) {
	part := inFront
	for _, c := range menuCommands() {
		if c.while != nil && !c.while(d) {
			continue
		}
		item := c.item(d)
		if c.beside {
			last := &rows[len(rows)-1]
			last.Items = append(last.Items, item)
			continue
		}
		row := widgets.MenuRow{Items: []widgets.MenuItem{item}}
		if c.menu != part {
			part = c.menu
			row.Rule, row.Heading = true, sectionNames[part].String()
		}
		rows = append(rows, row)
	}
	return rows
}

// item is the command as it stands in a menu.
func (c command) item(d *Desk) widgets.MenuItem {
	return widgets.MenuItem{Icon: c.icon, Words: c.name, Keys: c.keys, On: c.on != nil && c.on(d), Do: func() {
		d.FocusMirror()
		c.does(d)
	}}
}

// openCounted shows what can be done about what is left out, at a point of the window.
func openCounted(d *Desk, at fyne.Position) {
	var rows []widgets.MenuRow
	for _, c := range menuCommands() {
		if c.menu == ofCount {
			rows = append(rows, widgets.MenuRow{Items: []widgets.MenuItem{c.item(d)}})
		}
	}
	d.OpenList(rows, at)
}

// openSourceMenu shows what can be watched, at a point of the window.
func openSourceMenu(d *Desk, at fyne.Position) {
	m := menus.Source{
		Now: d.setup.Source, Before: d.settings.Before, Watch: d.watch, Shares: d.ways.Shares(),
		Region: d.PickRegion, Picture: func() { askPicture(d) }, Whole: func() { watchAll(d) },
		Part: func() { d.ask(askNarrow) },
		Still: func() {
			d.openPage(pageIndex(settings.PageStills))
			d.Notify(host.KeptAsked)
		},
	}
	if d.ways.Follows() {
		m.Window = func() { d.ways.ListWindows(at) }
	}
	d.OpenMenu(m.Rows(), at, nil)
}

// newViews makes the menu of the views.
func newViews(d *Desk) *menus.Views {
	return &menus.Views{Host: &d.Host, ViewActs: menus.ViewActs{
		Now: func() (string, bool) {
			now := d.flashes.Requested()
			return now.view, now.flipped
		},
		Choose: d.setView, Flip: d.flip, Renewed: d.refresh,
	}}
}

// watchAll watches all of the picture, or of the desktop, again.
func watchAll(d *Desk) {
	from := d.setup.Source
	switch from.Kind {
	case setup.SourceNothing:
	case setup.SourceRegion:
		d.PickRegion()
	default:
		d.watch(from.Whole())
	}
}

// askPicture lets the painter choose a picture file.
func askPicture(d *Desk) { d.AskPictureFile("open the picture", d.OpenPicture) }

// shiftHeld reports whether the shift key is down: the toolkit tells nothing of it beside a
// shortcut.
func shiftHeld(d *Desk) bool {
	drv, ok := d.App.Driver().(desktop.Driver)
	return ok && drv.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
}
