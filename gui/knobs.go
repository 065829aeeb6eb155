package gui

import (
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// turnKnob moves the knob of the view that is shown by some steps, and says where it stands.
func (d *Desk) turnKnob(steps int) {
	view := live.ViewOf(live.Wanted{Settings: d.settings})
	if view.Knob == nil {
		d.parts.strip.Say(widgets.MessageNote, "There is nothing to set about the view "+view.Name+".")
		return
	}
	at := view.Knob.At(d.settings.Knob(view) + float64(steps)*view.Knob.Step)
	d.settings = d.settings.WithKnob(view.Key, at)
	d.parts.strip.Say(widgets.MessageNote, view.Name+": "+wording.SayKnob(*view.Knob, at)+".")
	d.settled()
}
