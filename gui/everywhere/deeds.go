package everywhere

import (
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/settings"
)

// Deed is what a key does.
type Deed uint8

const (
	SpotA Deed = iota
	SpotB
	Freeze
	Keep
	View
	Window
	deeds
)

// entry is a deed's names and key.
type entry struct {
	key, plain string
	name       language.Words
}

// known are the deeds: their name in the settings' file, which never changes, what they are called,
// and the key that they have at first. The keys are our choice: no desktop that we know of has them.
var known = [deeds]entry{
	SpotA:  {"spot_a", "Ctrl+Alt+1", "Spot A here"},
	SpotB:  {"spot_b", "Ctrl+Alt+2", "Spot B here"},
	Freeze: {"freeze", "Ctrl+Alt+3", "Freeze, or resume"},
	Keep:   {"keep", "Ctrl+Alt+4", "Keep a still"},
	View:   {"view", "Ctrl+Alt+5", "Next view"},
	Window: {"window", "Ctrl+Alt+6", "Show or hide this window"},
}

// keyOf returns the key of a deed, "" for none.
func keyOf(s *settings.Settings, d Deed) string { return s.KeyOf(known[d].key, known[d].plain) }
