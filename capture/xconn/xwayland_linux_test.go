package xconn

import (
	"testing"

	"app.tonedesk/capture/xvfbtest"
)

// The server tells what it is; where it has no output, the environment does. A server of another
// kind in a Wayland session is none for old programs.
func TestIsXwayland(t *testing.T) {
	for _, tt := range []struct {
		name string
		args []string // of the server
		run  []string // before
		env  map[string]string
		want bool
	}{
		{"a plain server", nil, nil, nil, false},
		{"a plain server in a Wayland session", nil, nil, map[string]string{"WAYLAND_DISPLAY": "wayland-0", "XDG_SESSION_TYPE": "wayland"}, false},
		{"a monitor of that name, whatever the environment says", nil, []string{"--setmonitor", "XWAYLAND0", "640/160x480/120+0+0", "screen"}, nil, true},
		{"no outputs at all", []string{"-extension", "RANDR"}, nil, nil, false},
		{"no outputs in a Wayland session", []string{"-extension", "RANDR"}, nil, map[string]string{"XDG_SESSION_TYPE": "wayland"}, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			server := xvfbtest.Start(t, xvfbtest.Options{Args: tt.args})
			if tt.run != nil {
				server.Run("xrandr", tt.run...)
			}
			c, err := Acquire(bounded(t, patience), server.Display)
			if err != nil {
				t.Fatal(err)
			}
			defer c.Release()
			if got := c.IsXwayland(func(name string) string { return tt.env[name] }); got != tt.want {
				t.Errorf("Xwayland: %v, want %v", got, tt.want)
			}
		})
	}
}
