package settings

import (
	"encoding/json"
	"fmt"
	"testing"

	"app.tonedesk/analysis/propose"
)

// Of a file written before the defaults changed, what still had the old default, a quarter and
// a fifth, gets the new one; what was changed stays, and so does everything in a newer file.
func TestOldDefaultsAreRenewed(t *testing.T) {
	turn, gain := propose.DefaultTurn, propose.DefaultGain
	for _, tt := range []struct {
		file       string
		turn, gain float64
	}{
		{`"shade": {"turn": 0.25, "gain": 0.2}`, turn, gain},
		{`"shade": {"turn": 0.3, "gain": 0.2}`, 0.3, gain},
		{`"shade": {"turn": 0.25, "gain": -0.1}`, turn, -0.1},
		{`"shade": {"turn": 0, "gain": 0}`, 0, 0},
		{`"shade": {"turn": 0.25, "gain": 0.2}, "defaults": 2`, 0.25, 0.2},
		{`"shade": {"turn": 0.25, "gain": 0.2}, "defaults": 3`, 0.25, 0.2},
		{`"shade": {"turn": 0.25, "gain": 0.5}, "defaults": "late"`, turn, 0.5},
		{`"page": "Watch"`, turn, gain},
	} {
		s, problems, err := decodeSettings(fmt.Appendf(nil, `{"version": 1, %s}`, tt.file))
		if err != nil || len(problems) > 0 || s.Shade.Turn != tt.turn || s.Shade.Gain != tt.gain {
			t.Errorf("%s: turn %g, gain %g, %v, %v", tt.file, s.Shade.Turn, s.Shade.Gain, problems, err)
		}
	}
}

// A painter who chooses what was the default before keeps it.
func TestChosenOldDefaultsStay(t *testing.T) {
	s := Defaults()
	s.Shade.Turn, s.Shade.Gain = firstTurn, firstGain
	b, err := s.encode()
	if err != nil {
		t.Fatal(err)
	}
	again, _, err := decodeSettings(b)
	if err != nil || again.Shade != s.Shade || again.unknown != nil {
		t.Errorf("%+v, unknown %v, %v", again.Shade, again.unknown, err)
	}
	var object map[string]any
	if err := json.Unmarshal(b, &object); err != nil || object[editionName] != float64(defaultsEdition) {
		t.Errorf("the file says %v, %v", object[editionName], err)
	}
}
