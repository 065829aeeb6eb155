package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// openMenu shows the commands, at a point of the window.
func (d *Desk) openMenu(at fyne.Position) {
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", commandItems(d)...), d.Window.Canvas(), at)
}

// commandItems are the commands that stand in the menu.
func commandItems(d *Desk) (items []*fyne.MenuItem) {
	for _, c := range commands() {
		if !c.menu {
			continue
		}
		label := c.name
		if c.keys != "" {
			label += "   " + c.keys
		}
		item := fyne.NewMenuItem(label, func() {
			d.FocusMirror()
			c.does(d)
		})
		item.Checked = c.on != nil && c.on(d)
		items = append(items, item)
	}
	return items
}

// openViews shows the views, below their button.
func (d *Desk) openViews() {
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", viewItems(d)...), d.Window.Canvas(), d.parts.bar.View.Below())
}

// viewItems are the views, and what can be set about the one that is shown.
func viewItems(d *Desk) (items []*fyne.MenuItem) {
	for _, v := range views.All() {
		item := fyne.NewMenuItem(v.Name, func() {
			d.FocusMirror()
			d.setView(v.Key)
		})
		item.Checked = v.Key == d.settings.View
		items = append(items, item)
	}
	items = append(items, fyne.NewMenuItemSeparator())
	if view := live.ViewOf(live.Wanted{Settings: d.settings}); view.Knob != nil {
		now := wording.SayKnob(*view.Knob, d.settings.Knob(view))
		items = append(items,
			fyne.NewMenuItem("More than "+now+"   +", func() { d.turnKnob(1) }),
			fyne.NewMenuItem("Less   −", func() { d.turnKnob(-1) }))
	}
	mirrored := fyne.NewMenuItem("Mirrored left-right", d.flip)
	mirrored.Checked = d.settings.Mirrored
	return append(items, mirrored)
}

// watchAll watches all of the picture, or of the desktop, again.
func (d *Desk) watchAll() {
	from := d.setup.Source
	if from.Kind == setup.SourceRegion {
		d.PickRegion()
		return
	}
	from.Region = setup.Source{}.Region
	d.watch(from)
}

// AskPicture lets the painter choose a picture file.
func (d *Desk) AskPicture() { d.AskPictureFile("open the picture", d.OpenPicture) }
