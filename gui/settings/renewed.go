package settings

import (
	"encoding/json"

	"app.tonedesk/analysis/propose"
)

// defaultsEdition counts up whenever a default changes. A settings file says which edition it
// was written with, so that what the painter never changed follows, and all else stays.
const defaultsEdition = 2

// editionName is its name in the file; a file without it is of the first.
const editionName = "defaults"

// Defaults of the first edition.
const (
	firstTurn = 0.25
	firstGain = 0.2
)

// renew brings what still has a default of an older edition to that of now.
func (s *Settings) renew(edition int) {
	if edition >= defaultsEdition {
		return
	}
	if s.Shade.Turn == firstTurn {
		s.Shade.Turn = propose.DefaultTurn
	}
	if s.Shade.Gain == firstGain {
		s.Shade.Gain = propose.DefaultGain
	}
}

// takeEdition takes the edition out of a file's object: the first, if it is none.
func takeEdition(raw map[string]json.RawMessage) int {
	edition := 1
	if b, ok := raw[editionName]; ok && json.Unmarshal(b, &edition) != nil {
		edition = 1
	}
	delete(raw, editionName)
	return edition
}
