package native

import (
	"sync/atomic"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/randr"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// News tells whether one of our own windows may have been moved, resized, shown, hidden or given
// another frame, or the screens may be others: the server says so by itself. The zero value is
// ready. One goroutine uses it.
type News struct {
	conn    *xconn.Conn // that tells; nil for none
	window  uintptr
	cancel  func()
	changed atomic.Bool
}

// Any reports whether there may be news since the last call: also at first, and as long as the
// server doesn't answer.
func (n *News) Any(window uintptr) bool {
	if n.conn == nil || !n.conn.Alive() || n.window != window {
		n.listen(window)
		return true
	}
	return n.changed.Swap(false)
}

// listen has the server tell of a window from now on.
func (n *News) listen(window uintptr) {
	n.End()
	conn, err := ask(window, func(c *xconn.Conn, w xproto.Window) (*xconn.Conn, error) { return c, chooseNews(c, w) })
	if err == nil {
		n.conn, n.window = conn, window
		n.cancel = conn.Subscribe(func(event xgb.Event) { n.receive(xproto.Window(window), event) })
	}
}

// chooseNews chooses what the server tells. Sources: X Window System Protocol, X11R7.7, section 10;
// RandR protocol 1.5, RRSelectInput. A window manager tells of places itself (ICCCM 2.0, section
// 4.1.5).
func chooseNews(c *xconn.Conn, w xproto.Window) error {
	const mask = xproto.EventMaskStructureNotify | xproto.EventMaskPropertyChange
	if err := xproto.ChangeWindowAttributesChecked(c.X, w, xproto.CwEventMask, []uint32{mask}).Check(); err != nil || !c.Has(xconn.RandR) {
		return err
	}
	const screens = randr.NotifyMaskScreenChange | randr.NotifyMaskCrtcChange | randr.NotifyMaskOutputChange
	return randr.SelectInputChecked(c.X, c.Screen.Root, screens).Check()
}

// receive takes an event; it runs on the connection's goroutine.
func (n *News) receive(w xproto.Window, event xgb.Event) {
	told := false
	switch e := event.(type) {
	case xproto.ConfigureNotifyEvent:
		told = e.Window == w
	case xproto.MapNotifyEvent:
		told = e.Window == w
	case xproto.UnmapNotifyEvent:
		told = e.Window == w
	case xproto.ReparentNotifyEvent:
		told = e.Window == w
	case xproto.PropertyNotifyEvent:
		told = e.Window == w
	case randr.ScreenChangeNotifyEvent, randr.NotifyEvent:
		told = true
	}
	if told {
		n.changed.Store(true)
	}
}

// End has it tell no more.
func (n *News) End() {
	if n.conn != nil {
		n.cancel()
		n.conn = nil
	}
}
