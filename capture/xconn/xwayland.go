package xconn

import (
	"strings"

	"github.com/jezek/xgb/randr"
	"github.com/jezek/xgb/xproto"
)

// IsXwayland reports whether the server only serves old programs in a Wayland session, which shows
// them neither the screen nor the keys of others. Such a server has the extension XWAYLAND, or an
// output named XWAYLAND0. Source for the latter: RandR protocol 1.5, GetMonitors; a server without
// that names none. It makes requests, so it may hang.
func (c *Conn) IsXwayland() bool {
	is := c.Has(XWayland)
	if c.Has(RandR) {
		reply, err := randr.GetMonitors(c.X, c.Screen.Root, true).Reply()
		if err != nil {
			reply = &randr.GetMonitorsReply{}
		}
		for _, m := range reply.Monitors {
			name, err := xproto.GetAtomName(c.X, m.Name).Reply()
			is = is || err == nil && strings.HasPrefix(name.Name, "XWAYLAND")
		}
	}
	return is
}
