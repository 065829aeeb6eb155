package capture

// DisplayVariable names the X display to watch, where that is another than the
// window's own (DISPLAY).
const DisplayVariable = "TONEDESK_DISPLAY"

// Pick opens the way into this system's screen. env gives environment variables,
// such as os.Getenv. It may take a few seconds where a display does not answer.
//
// On Linux it is the X server that DisplayVariable names, or else DISPLAY. A Wayland
// session without an X server, or with one that only serves old programs, gives
// ErrWayland. On Windows and macOS it is the portable backend. Errors wrap
// ErrNoDisplay, ErrRefused, ErrNotAnswering, ErrDisconnected, ErrFormat, ErrWayland or
// ErrUnsupported.
func Pick(env func(string) string) (Backend, error) {
	return pick(env)
}
