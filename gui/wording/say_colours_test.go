package wording

import "testing"

func TestSayBaseFrom(t *testing.T) {
	for _, tt := range []struct {
		name        string
		held, typed bool
		want        string
	}{
		{"spot B", false, false, "follows spot B"}, {"the colour chosen", true, false, "held"},
		{"the colour chosen", true, true, "typed"}, {"", false, false, "click a spot"},
	} {
		if got := SayBaseFrom(tt.name, tt.held, tt.typed); got != tt.want {
			t.Errorf("%+v: %q", tt, got)
		}
	}
}
