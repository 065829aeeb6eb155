package capture

import "github.com/jezek/xgb/xproto"

// x11Atoms are the server's numbers for the names of what window managers and programs say of
// windows. Sources: Inter-Client Communication Conventions Manual 2.0 (ICCCM), Extended Window
// Manager Hints 1.5 (EWMH).
type x11Atoms struct {
	clients, stacking, check   xproto.Atom // EWMH: the manager's list, from the bottom, and its own window
	name, utf8, state, machine xproto.Atom
	pid, kind, dock, desktop   xproto.Atom
}

// newX11Atoms asks for them all at once.
func newX11Atoms(s *x11Session) (a x11Atoms, err error) {
	names := []struct {
		name string
		to   *xproto.Atom
	}{
		{"_NET_CLIENT_LIST", &a.clients}, {"_NET_CLIENT_LIST_STACKING", &a.stacking}, {"_NET_SUPPORTING_WM_CHECK", &a.check},
		{"_NET_WM_NAME", &a.name}, {"UTF8_STRING", &a.utf8}, {"WM_STATE", &a.state}, {"WM_CLIENT_MACHINE", &a.machine},
		{"_NET_WM_PID", &a.pid}, {"_NET_WM_WINDOW_TYPE", &a.kind},
		{"_NET_WM_WINDOW_TYPE_DOCK", &a.dock}, {"_NET_WM_WINDOW_TYPE_DESKTOP", &a.desktop},
	}
	cookies := make([]xproto.InternAtomCookie, len(names))
	for i, n := range names {
		cookies[i] = xproto.InternAtom(s.conn.X, false, uint16(len(n.name)), n.name)
	}
	for i, n := range names {
		reply, late := cookies[i].Reply()
		if late != nil {
			err = late
			continue
		}
		*n.to = reply.Atom
	}
	return a, err
}
