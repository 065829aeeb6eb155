package portal

import (
	"cmp"

	"app.tonedesk/capture"
	"app.tonedesk/capture/wayland"
)

// Pick opens the way into this system's screen, as capture.Pick does; in a Wayland session it goes by
// the desktop's portal, or by the compositor where there is none; neither is asked yet. Errors are those of capture.Pick.
func Pick(env func(string) string, tokens Tokens) (capture.Backend, error) {
	b, err := capture.Pick(env)
	x11, ok := b.(windowsAlone)
	if err != nil || !ok || !capture.InWaylandSession(b) {
		return b, err
	}
	return &backend{windowsAlone: x11, address: addressOf(env), tokens: tokens, waits: usual, screens: screens{compositor: wayland.Of(env)}}, nil
}

// addressOf is where the session's bus is.
func addressOf(env func(string) string) string {
	address := env("DBUS_SESSION_BUS_ADDRESS")
	if dir := env("XDG_RUNTIME_DIR"); address == "" && dir != "" {
		address = "unix:path=" + dir + "/bus" // common practice, no source
	}
	return cmp.Or(address, noBus)
}

// noBus is the address of a bus that is not there.
const noBus = "unix:path=/nonexistent"
