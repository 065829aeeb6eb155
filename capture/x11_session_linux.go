package capture

import (
	"context"
	"fmt"
	"image"
	"os"
	"sync/atomic"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/composite"
	"github.com/jezek/xgb/damage"
	"github.com/jezek/xgb/xfixes"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// x11Session is what holds as long as one connection does: the connection, the format of
// its pixels, and the size of the root window, which changes with the resolution.
type x11Session struct {
	conn     *xconn.Conn
	format   *x11Format
	atoms    x11Atoms
	damages  bool        // the server tells what has changed
	follows  bool        // it gives windows that are covered
	rootless bool        // it only serves old programs in a Wayland session: its root window shows nothing of the screen
	stale    atomic.Bool // the size has to be asked for
	size     atomic.Pointer[image.Rectangle]
	cancel   func() // ends the subscription
}

// newX11Session connects, finds out whether the screen can be read, and begins to watch
// the root window. It makes requests, so it may hang.
func newX11Session(ctx context.Context, display string) (*x11Session, error) {
	c, err := xconn.Acquire(ctx, display)
	if err != nil {
		return nil, err
	}
	s := &x11Session{conn: c}
	s.stale.Store(true)
	s.cancel = c.Subscribe(s.receive)
	s.format, err = x11FormatOf(c.Setup, c.Screen, c.Screen.RootDepth, c.Screen.RootVisual)
	s.rootless = c.IsXwayland(os.Getenv)
	if err == nil {
		err = xproto.ChangeWindowAttributesChecked(c.X, c.Screen.Root, xproto.CwEventMask,
			[]uint32{xproto.EventMaskStructureNotify}).Check()
	}
	if err == nil {
		s.greet()
		s.atoms, err = newX11Atoms(s)
	}
	if err != nil {
		s.cancel()
		c.Release()
		return nil, err
	}
	return s, nil
}

// greet tells the server which versions of its extensions we speak, without which it answers
// no other request. Sources: the protocols' own texts, The X Fixes Extension 2.0, The Damage
// Extension 1.1, X Composite 0.4.
func (s *x11Session) greet() {
	x := s.conn.X
	if s.conn.Has(xconn.XFixes) && s.conn.Has(xconn.Damage) {
		fixes, err := xfixes.QueryVersion(x, 2, 0).Reply()
		damages, failed := damage.QueryVersion(x, 1, 1).Reply()
		s.damages = err == nil && failed == nil && fixes.MajorVersion >= 2 && damages.MajorVersion >= 1
	}
	if s.conn.Has(xconn.Composite) {
		reply, err := composite.QueryVersion(x, 0, 4).Reply()
		s.follows = err == nil && (reply.MajorVersion > 0 || reply.MinorVersion >= 2) // names pixmaps
	}
}

// receive takes an event; it runs on the connection's goroutine.
func (s *x11Session) receive(event xgb.Event) {
	if e, ok := event.(xproto.ConfigureNotifyEvent); ok && e.Window == s.conn.Screen.Root {
		s.stale.Store(true)
	}
}

// ask returns the root window's size even if the notice of a change is still under way.
// It may hang.
func (s *x11Session) ask() (image.Rectangle, error) {
	s.stale.Store(true)
	return s.bounds()
}

// bounds returns the root window's size as a rectangle at the origin. It asks the
// server only after a change, and may hang then.
func (s *x11Session) bounds() (image.Rectangle, error) {
	if !s.stale.Swap(false) {
		if known := s.size.Load(); known != nil {
			return *known, nil
		}
	}
	g, err := xproto.GetGeometry(s.conn.X, xproto.Drawable(s.conn.Screen.Root)).Reply()
	if err != nil {
		s.stale.Store(true)
		return image.Rectangle{}, fmt.Errorf("size of the root window: %w", err)
	}
	b := image.Rect(0, 0, int(g.Width), int(g.Height))
	s.size.Store(&b)
	return b, nil
}

// shows returns an error that wraps ErrWayland if the root window is not the screen: reading it
// would give black, and the pointer is known only while it is over windows of this server.
func (s *x11Session) shows() error {
	if s.rootless {
		return fmt.Errorf("%w: the X server is Xwayland, whose root window is not the screen", ErrWayland)
	}
	return nil
}
