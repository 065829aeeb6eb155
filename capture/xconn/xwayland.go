package xconn

import (
	"strings"

	"github.com/jezek/xgb/randr"
	"github.com/jezek/xgb/xproto"
)

// rootless is how names of outputs and monitors begin on a server that only serves old programs.
const rootless = "XWAYLAND"

// IsXwayland reports whether the server only serves old programs in a Wayland session, which shows
// them neither the screen nor the keys of others. Such a server has the extension XWAYLAND, or
// outputs named XWAYLAND0 and so on. A server without any output (its monitors may be off) does not
// tell: then it is one if the environment says that the session is. The environment alone is not
// believed, since a server of another kind may run in such a session. env gives environment
// variables, such as os.Getenv. Sources: RandR protocol 1.5, GetMonitors, GetScreenResourcesCurrent.
// It makes requests, so it may hang.
func (c *Conn) IsXwayland(env func(string) string) bool {
	if c.Has(XWayland) {
		return true
	}
	var names []string
	if c.Has(RandR) {
		names = append(c.monitors(), c.outputs()...)
	}
	for _, name := range names {
		if strings.HasPrefix(name, rootless) {
			return true
		}
	}
	return len(names) == 0 && WaylandSession(env)
}

// WaylandSession reports whether the environment says that the session is a Wayland one.
func WaylandSession(env func(string) string) bool {
	return env("WAYLAND_DISPLAY") != "" || env("XDG_SESSION_TYPE") == "wayland"
}

// monitors returns the names of the monitors that are on.
func (c *Conn) monitors() (names []string) {
	reply, err := randr.GetMonitors(c.X, c.Screen.Root, true).Reply()
	if err != nil {
		return nil // a server of RandR before 1.5
	}
	for _, m := range reply.Monitors {
		if name, err := xproto.GetAtomName(c.X, m.Name).Reply(); err == nil {
			names = append(names, name.Name)
		}
	}
	return names
}

// outputs returns the names of the outputs, whether they are on or not.
func (c *Conn) outputs() (names []string) {
	reply, err := randr.GetScreenResourcesCurrent(c.X, c.Screen.Root).Reply()
	if err != nil {
		return nil // a server of RandR before 1.3
	}
	for _, o := range reply.Outputs {
		if info, err := randr.GetOutputInfo(c.X, o, reply.ConfigTimestamp).Reply(); err == nil {
			names = append(names, string(info.Name))
		}
	}
	return names
}
