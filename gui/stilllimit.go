package gui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// checkLimit says so if the stills take more room than they may. It removes nothing.
func (d *Desk) checkLimit() {
	limit := d.settings.LimitBytes()
	if limit == 0 || d.options.Stills == nil {
		return
	}
	d.aside(func() {
		over, err := d.options.Stills.Over(limit)
		d.onWindow(func() {
			if err != nil {
				fyne.LogError("measuring the stills", err)
				return
			}
			switch {
			case len(over.Removals) > 0:
				d.parts.strip.SayWith(widgets.MessageNote, wording.SayOver(over), widgets.MessageAct{Name: "See which", Do: func() { d.askClear(over) }})
			case !over.Enough():
				d.parts.strip.Say(widgets.MessageNote, wording.SayOver(over))
			}
		})
	})
}

// askClear lists what would be removed, and removes it if the painter agrees.
func (d *Desk) askClear(over stills.Clearing) {
	d.parts.strip.Clear(widgets.MessageNote)
	list := container.NewVBox()
	if !over.Enough() {
		l := widgets.SmallLabel()
		l.SetText(wording.SayOver(over))
		list.Add(l)
	}
	for _, r := range over.Removals {
		l := widgets.SmallLabel()
		l.SetText(wording.SayRemoval(r))
		list.Add(l)
	}
	scroll := container.NewVScroll(list)
	scroll.SetMinSize(fyne.NewSize(30*widgets.Step, 24*widgets.Step))
	ask := dialog.NewCustomConfirm("Remove for good", "Remove", "Keep all", scroll, func(yes bool) {
		if yes {
			d.clearStills(over)
		}
		d.focusMirror()
	}, d.window)
	ask.SetConfirmImportance(widget.MediumImportance) // what can't be undone isn't urged
	ask.Show()
}

// clearStills removes what was agreed to.
func (d *Desk) clearStills(over stills.Clearing) {
	d.aside(func() {
		removed, err := d.options.Stills.Clear(over)
		d.onWindow(func() {
			words := fmt.Sprintf("%d removed.", removed)
			if err != nil {
				words += " " + wording.Explain("remove all of them", err)
			}
			d.parts.strip.Say(widgets.MessageNote, words)
			d.stillsChanged()
		})
	})
}
