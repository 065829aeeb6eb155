package capture

import (
	"errors"
	"testing"
)

func TestPickRefuses(t *testing.T) {
	tests := []struct {
		name string
		env  map[string]string
		want error
	}{
		{"nothing at all", nil, ErrNoDisplay},
		{"a Wayland session alone", map[string]string{"WAYLAND_DISPLAY": "wayland-0"}, ErrWayland},
		{"a Wayland session by its type", map[string]string{"XDG_SESSION_TYPE": "wayland"}, ErrUnsupported},
		{"no server there", map[string]string{"DISPLAY": ":59999"}, ErrNoDisplay},
		{"a name that is none", map[string]string{"DISPLAY": "screen"}, ErrNoDisplay},
		{"the watched one goes before the window's", map[string]string{DisplayVariable: "no name", "DISPLAY": ":59999"}, ErrNoDisplay},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b, err := Pick(func(name string) string { return tt.env[name] })
			if b != nil || !errors.Is(err, tt.want) {
				t.Errorf("got %v, %v, want %v", b, err, tt.want)
			}
			if named := tt.env[DisplayVariable] != ""; errors.Is(err, ErrNamed) != named {
				t.Errorf("of a display named apart (%v) it says %v", named, err)
			}
		})
	}
}
