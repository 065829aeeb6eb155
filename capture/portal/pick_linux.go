package portal

import (
	"cmp"

	"app.tonedesk/capture"
)

// Pick opens the way into this system's screen, as capture.Pick does; in a Wayland session it goes by
// the desktop's portal, which is not asked yet. Errors are those of capture.Pick.
func Pick(env func(string) string, tokens Tokens) (capture.Backend, error) {
	b, err := capture.Pick(env)
	x11, ok := b.(windowsAlone)
	if err != nil || !ok || !capture.InWaylandSession(b) {
		return b, err
	}
	address := env("DBUS_SESSION_BUS_ADDRESS")
	if dir := env("XDG_RUNTIME_DIR"); address == "" && dir != "" {
		address = "unix:path=" + dir + "/bus" // common practice, no source
	}
	return &backend{windowsAlone: x11, address: cmp.Or(address, noBus), tokens: tokens, waits: usual}, nil
}

// noBus is the address of a bus that is not there.
const noBus = "unix:path=/nonexistent"
