package gui

// turnKnob moves the knob of the view that is shown by some steps, and says where it stands.
func (d *Desk) turnKnob(steps int) {
	view := viewOf(wanted{settings: d.settings})
	if view.Knob == nil {
		d.parts.strip.say(stripNote, "There is nothing to set about the view "+view.Name+".")
		return
	}
	at := view.Knob.At(d.settings.knob(view) + float64(steps)*view.Knob.Step)
	d.settings = d.settings.withKnob(view.Key, at)
	d.parts.strip.say(stripNote, view.Name+": "+SayKnob(*view.Knob, at)+".")
	d.settled()
}
