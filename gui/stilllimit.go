package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// checkLimit says so if the stills take more room than they may. It removes nothing.
func (k *keptStills) checkLimit() {
	limit := k.settings.LimitBytes()
	if limit == 0 || k.Store == nil {
		return
	}
	var over stills.Clearing
	k.Background(func() (err error) {
		over, err = k.Store.Over(limit)
		return err
	}, func(err error) {
		switch {
		case err != nil:
			fyne.LogError("measuring the stills", err)
		case len(over.Removals) > 0:
			k.Messages.Offer(host.MessageError, wording.SayOver(over), host.MessageAct{Name: language.Say("See which"), Do: func() { k.askClear(over) }})
		case !over.Enough():
			k.Messages.Fail(wording.SayOver(over))
		}
	})
}

// askClear lists what would be removed, and removes it if the painter agrees.
func (k *keptStills) askClear(over stills.Clearing) {
	k.Messages.Clear(host.MessageError)
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
	k.Question(language.Say("Remove for good"), scroll, nil,
		host.Choice{Name: language.Say("Keep all")},
		host.Choice{Name: language.Say("Remove"), Do: func() { k.clearStills(over) }})
}

// clearStills removes what was agreed to.
func (k *keptStills) clearStills(over stills.Clearing) {
	removed := 0
	k.Background(func() (err error) {
		removed, err = k.Store.Clear(over)
		return err
	}, func(err error) {
		k.Messages.Note(language.Say("%d removed", removed))
		if err != nil {
			k.Messages.Fail(wording.Explain("remove all of them", err))
		}
		k.Notify(host.StillsChanged)
	})
}
