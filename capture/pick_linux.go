package capture

import (
	"cmp"
	"errors"
	"fmt"

	"app.tonedesk/capture/xconn"
)

// Pick opens the way into this system's screen: the X server that DisplayVariable names,
// or else DISPLAY. env gives environment variables, such as os.Getenv. It may take a few
// seconds where a display does not answer. In a Wayland session's server for old programs it opens
// the way to their windows alone (see InWaylandSession); without any X server a Wayland session
// gives ErrWayland. Errors wrap ErrNoDisplay,
// ErrRefused, ErrNotAnswering, ErrDisconnected, ErrFormat, ErrWayland or ErrUnsupported.
//
// Where our own backend refuses the server's format the portable one is no way out: it
// takes every pixel for four bytes B, G, R, X, which our own reads too, and in every other
// format gives wrong colours without an error, or breaks down (TestPortableColoursOnX11).
// Right numbers come first.
func Pick(env func(string) string) (Backend, error) {
	display := cmp.Or(env(DisplayVariable), env("DISPLAY"))
	if display == "" {
		if xconn.WaylandSession(env) {
			return nil, fmt.Errorf("pick a screen: no X display is named: %w", ErrWayland)
		}
		return nil, fmt.Errorf("pick a screen: neither %s nor DISPLAY is set: %w", DisplayVariable, ErrNoDisplay)
	}
	b, err := openX11(display)
	switch {
	case errors.Is(err, ErrNoDisplay) && env(DisplayVariable) != "":
		return nil, fmt.Errorf("pick a screen: %w: %w", ErrNamed, err)
	case errors.Is(err, ErrFormat):
		return nil, fmt.Errorf("pick a screen: %w; the portable reader would show wrong colours there", err)
	case err != nil:
		return nil, fmt.Errorf("pick a screen: %w", err)
	}
	return b, nil
}
