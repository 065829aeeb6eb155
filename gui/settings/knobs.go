package settings

import (
	"maps"
	"math"

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

// Knob returns where a view's knob stands.
func (s Settings) Knob(view views.View) float64 {
	if view.Knob == nil {
		return 0
	}
	if at, ok := s.Knobs[view.Key]; ok {
		return at
	}
	return view.Knob.Start
}

// WithKnob returns the settings with a view's knob elsewhere.
func (s Settings) WithKnob(view string, at float64) Settings {
	knobs := maps.Clone(s.Knobs)
	if knobs == nil {
		knobs = make(map[string]float64)
	}
	knobs[view] = at
	s.Knobs = knobs
	return s
}

// LimitBytes is how much room stills may take, in bytes; 0 for as much as they need.
func (s Settings) LimitBytes() int64 { return int64(s.StillsLimit) << 20 }
