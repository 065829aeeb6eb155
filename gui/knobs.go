package gui

import (
	"fmt"
	"maps"
	"math"
	"strconv"

	"app.tonedesk/analysis/views"
)

// confineKnobs returns the knobs with those of known views within their ranges. Knobs of
// views that this program doesn't know stay, unless they are no numbers.
func confineKnobs(knobs map[string]float64) map[string]float64 {
	kept := maps.Clone(knobs)
	for key, at := range knobs {
		view, ok := views.ByKey(key)
		switch {
		case math.IsNaN(at) || math.IsInf(at, 0):
			delete(kept, key)
		case ok && view.Knob != nil:
			kept[key] = view.Knob.At(at)
		}
	}
	return kept
}

// knob returns where a view's knob stands.
func (s Settings) knob(view views.View) float64 {
	if view.Knob == nil {
		return 0
	}
	if at, ok := s.Knobs[view.Key]; ok {
		return at
	}
	return view.Knob.Start
}

// withKnob returns the settings with a view's knob elsewhere.
func (s Settings) withKnob(view string, at float64) Settings {
	knobs := maps.Clone(s.Knobs)
	if knobs == nil {
		knobs = make(map[string]float64)
	}
	knobs[view] = at
	s.Knobs = knobs
	return s
}

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

// SayKnob says where a knob stands: "Strength 2 % of the longer side".
func SayKnob(k views.Knob, at float64) string {
	number := strconv.FormatFloat(math.Round(at*100)/100, 'f', -1, 64)
	if k.Unit == "" {
		return fmt.Sprintf("%s%s%s", k.Name, nbsp, number)
	}
	return fmt.Sprintf("%s%s%s%s%s", k.Name, nbsp, number, nbsp, k.Unit)
}
