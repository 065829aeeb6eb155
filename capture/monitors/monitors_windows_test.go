package monitors

import (
	"errors"
	"testing"
)

// The monitors have names and places; what the system keeps for each is a profile, or none.
func TestMonitorsAndTheirProfiles(t *testing.T) {
	list, err := List(t.Context())
	if err != nil || len(list) == 0 {
		t.Fatalf("%+v, %v", list, err)
	}
	for i, m := range list {
		if m.Name == "" || m.Rect.Empty() {
			t.Errorf("monitor %d is %+v", i, m)
		}
		got, err := Profile(t.Context(), m)
		t.Logf("%s: %d bytes, %v", m.Name, len(got), err)
		switch {
		case errors.Is(err, ErrNone):
		case err != nil, len(got) < 128 || string(got[36:40]) != "acsp": // ICC.1:2010, 7.2.9
			t.Errorf("%s has %d bytes, %v", m.Name, len(got), err)
		}
	}
	if _, err := Profile(t.Context(), Monitor{Name: "nothing", key: `\\.\NODISPLAY9`}); err == nil {
		t.Error("a monitor that isn't there has a profile")
	}
}
