package capture

import (
	"errors"
	"fmt"
)

// pick opens the X server. Where our own backend refuses the server's format the
// portable one is no way out: it takes every pixel for four bytes B, G, R, X, which
// our own reads too, and in every other format gives wrong colours without an error,
// or breaks down (TestPortableColoursOnX11). Right numbers come first.
func pick(env func(string) string) (Backend, error) {
	display := env(DisplayVariable)
	if display == "" {
		display = env("DISPLAY")
	}
	if display == "" {
		if env("WAYLAND_DISPLAY") != "" || env("XDG_SESSION_TYPE") == "wayland" {
			return nil, fmt.Errorf("pick a screen: no X display is named: %w", ErrWayland)
		}
		return nil, fmt.Errorf("pick a screen: neither %s nor DISPLAY is set: %w", DisplayVariable, ErrNoDisplay)
	}
	b, err := openX11(display)
	switch {
	case errors.Is(err, ErrFormat):
		return nil, fmt.Errorf("pick a screen: %w; the portable reader would show wrong colours there", err)
	case err != nil:
		return nil, fmt.Errorf("pick a screen: %w", err)
	}
	return b, nil
}
