package capture

import (
	"fmt"
	"image"
	"sync/atomic"

	"github.com/jezek/xgb/composite"
	"github.com/jezek/xgb/xproto"
)

// x11Holding is what is held of a window that is there.
type x11Holding struct {
	id      xproto.Window
	format  *x11Format
	damage  *x11Damage
	ended   atomic.Bool // it was closed
	renamed atomic.Bool // its title or state has changed
	moved   atomic.Bool // its place or size has changed, or whether it is shown
	inside  image.Rectangle
	border  int // around the inside
}

// note notes what an event says, if it is about this window.
func (h *x11Holding) note(what *atomic.Bool, about xproto.Window) bool {
	if about == h.id {
		what.Store(true)
	}
	return about == h.id
}

// find looks for the window and takes hold of it.
func (w *x11Window) find() (*x11Holding, error) {
	windows, err := w.windows(w.own)
	if err != nil {
		return nil, err
	}
	found, ok := sought(*w.seen.Load(), windows)
	if !ok {
		return nil, ErrNoWindow
	}
	if w.pixmap == 0 {
		if w.pixmap, err = xproto.NewPixmapId(w.conn.X); err != nil {
			return nil, err
		}
	}
	h, err := w.hold(xproto.Window(found.ID))
	if err != nil {
		if isGone(err) {
			return nil, fmt.Errorf("%w: %w", ErrNoWindow, err)
		}
		return nil, err
	}
	w.seen.Store(&found)
	w.held.Store(h)
	return h, nil
}

// hold has the server keep a window's picture and tell of what happens to it.
func (w *x11Window) hold(id xproto.Window) (*x11Holding, error) {
	x := w.conn.X
	const mask = xproto.EventMaskStructureNotify | xproto.EventMaskPropertyChange
	chosen := xproto.ChangeWindowAttributesChecked(x, id, xproto.CwEventMask, []uint32{mask})
	attributes, geometry := xproto.GetWindowAttributes(x, id), xproto.GetGeometry(x, xproto.Drawable(id))
	a, err := attributes.Reply()
	g, failed := geometry.Reply()
	for _, e := range []error{chosen.Check(), err, failed} {
		if e != nil {
			return nil, e
		}
	}
	h := &x11Holding{id: id}
	h.moved.Store(true)
	if h.format, err = x11FormatOf(w.conn.Setup, w.conn.Screen, g.Depth, a.Visual); err != nil {
		return nil, err
	}
	if err := composite.RedirectWindowChecked(x, id, composite.RedirectAutomatic).Check(); err != nil {
		return nil, err
	}
	if h.damage, err = newX11Damage(w.x11Session, id); err != nil {
		composite.UnredirectWindow(x, id, composite.RedirectAutomatic)
		return nil, err
	}
	return h, nil
}

// letGo gives back what is held of a window, and forgets its number: another may get that.
func (w *x11Window) letGo() {
	h := w.held.Swap(nil)
	if h == nil {
		return
	}
	if !h.ended.Load() {
		composite.UnredirectWindow(w.conn.X, h.id, composite.RedirectAutomatic)
	}
	h.damage.end()
	seen := *w.seen.Load()
	seen.ID = 0
	w.seen.Store(&seen)
}
