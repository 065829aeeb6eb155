package everywhere

import "app.tonedesk/gui/settings"

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
type entry struct{ key, name, plain string }

// known are the deeds: their name in the settings' file, which never changes, what they are called,
// and the key that they have at first. The keys are our choice: no desktop that we know of has them.
var known = [deeds]entry{
	SpotA:  {"spot_a", "Spot A here", "Ctrl+Alt+1"},
	SpotB:  {"spot_b", "Spot B here", "Ctrl+Alt+2"},
	Freeze: {"freeze", "Freeze, or resume", "Ctrl+Alt+3"},
	Keep:   {"keep", "Keep a still", "Ctrl+Alt+4"},
	View:   {"view", "Next view", "Ctrl+Alt+5"},
	Window: {"window", "Show or hide this window", "Ctrl+Alt+6"},
}

// keyOf returns the key of a deed, "" for none.
func keyOf(s *settings.Settings, d Deed) string { return s.KeyOf(known[d].key, known[d].plain) }
