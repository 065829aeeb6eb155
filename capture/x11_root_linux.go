package capture

import (
	"fmt"
	"image"
	"sync/atomic"

	"app.tonedesk/capture/xconn"
	"github.com/jezek/xgb"
	"github.com/jezek/xgb/randr"
	"github.com/jezek/xgb/xproto"
)

// x11Root knows the size of the root window, which changes with the resolution.
type x11Root struct {
	conn   *xconn.Conn
	stale  atomic.Bool
	size   atomic.Pointer[image.Rectangle]
	cancel func()
}

// watchX11Root begins to watch c's root window. It makes requests, so it may hang.
func watchX11Root(c *xconn.Conn) (*x11Root, error) {
	r := &x11Root{conn: c}
	r.stale.Store(true)
	r.cancel = c.Subscribe(r.hear)
	root := c.Screen.Root
	err := xproto.ChangeWindowAttributesChecked(c.X, root, xproto.CwEventMask,
		[]uint32{xproto.EventMaskStructureNotify}).Check()
	if err == nil && c.Has(xconn.RandR) {
		err = randr.SelectInputChecked(c.X, root, randr.NotifyMaskScreenChange).Check()
	}
	if err != nil {
		r.cancel()
		return nil, fmt.Errorf("watch the root window: %w", err)
	}
	return r, nil
}

// hear takes an event; it runs on the connection's goroutine.
func (r *x11Root) hear(event xgb.Event) {
	switch e := event.(type) {
	case xproto.ConfigureNotifyEvent:
		if e.Window == r.conn.Screen.Root {
			r.changed()
		}
	case randr.ScreenChangeNotifyEvent:
		r.changed()
	}
}

// changed has bounds ask again.
func (r *x11Root) changed() { r.stale.Store(true) }

// ask returns the root window's size even if the notice of a change is still under way.
// It may hang.
func (r *x11Root) ask() (image.Rectangle, error) {
	r.changed()
	return r.bounds()
}

// bounds returns the root window's size as a rectangle at the origin. It asks the
// server only after a change, and may hang then.
func (r *x11Root) bounds() (image.Rectangle, error) {
	if !r.stale.Swap(false) {
		if known := r.size.Load(); known != nil {
			return *known, nil
		}
	}
	g, err := xproto.GetGeometry(r.conn.X, xproto.Drawable(r.conn.Screen.Root)).Reply()
	if err != nil {
		r.changed()
		return image.Rectangle{}, fmt.Errorf("size of the root window: %w", err)
	}
	b := image.Rect(0, 0, int(g.Width), int(g.Height))
	r.size.Store(&b)
	return b, nil
}
