package wording

import (
	"fmt"
	"strings"
	"testing"

	"app.tonedesk/analysis/profile"
	"app.tonedesk/capture/monitors"
)

// Where there is little room the state is what stays, and a long name is cut there, not in the
// explanation.
func TestTheSpaceIsNamedBesideTheSource(t *testing.T) {
	state := [3]string{"600 × 400, live, 10 a second", "live, 10 a second", "live"}
	if got, want := InSpace(state, "Display P3"), [3]string{"600 × 400, live, 10 a second, Display P3", "Display P3, live", "live"}; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	long := InSpace(state, "Pen display of the studio, 2026")
	if long[1] != "Pen display of …, live" || long[2] != "live" || !strings.HasSuffix(long[0], "studio, 2026") {
		t.Errorf("%q", long)
	}
}

// What is refused of a display is said in one sentence, with what is in its place and what to do.
func TestRefusedDisplaysAreSaid(t *testing.T) {
	for err, want := range map[error]string{
		monitors.ErrNone:    "the desktop keeps no colour profile for it",
		profile.ErrTables:   "lookup tables",
		profile.ErrDamaged:  "damaged",
		profile.ErrLarge:    "larger than 4 megabytes",
		fmt.Errorf("other"): "can't be read",
	} {
		got := SayShownIn("left", "sRGB", fmt.Errorf("find: %w", err))
		if !strings.Contains(got, want) || !strings.HasPrefix(got, "The display is read in sRGB: ") || !strings.HasSuffix(got, " in the settings.") || strings.Count(got, ".") != 1 {
			t.Errorf("%v: %q", err, got)
		}
	}
	if got := SayShownIn("left", "gamma 2.2", nil); got != "What lies on left is read in gamma 2.2." {
		t.Errorf("%q", got)
	}
}
