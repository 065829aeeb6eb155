package native

import (
	"time"

	"github.com/jezek/xgb/xproto"
)

// sendTime is how long a requestor may take to fetch the next piece before the owner gives
// up on it. Our choice; the convention only says that there should be a limit.
const sendTime = 30 * time.Second

// requestHead is what a request to change a property may need beside the data, in bytes,
// and some more.
const requestHead = 100

// destination is a property of a window that a picture is sent to.
type destination struct {
	window   xproto.Window
	property xproto.Atom
}

// send is a picture on its way in pieces. A piece follows when the requestor has deleted the
// one before; an empty one is the last. It goes on when the clipboard is lost meanwhile.
// Source: ICCCM, section 2.7.2.
type send struct {
	rest []byte
	till time.Time // the next piece must be fetched before
}

// piece returns how many bytes go at a time: as many as a request may hold.
func (o *clipboardOwner) piece() int {
	return max(4*int(o.conn.Setup.MaximumRequestLength)-requestHead, requestHead)
}

// begin announces a picture in pieces; false if its destination is gone.
func (o *clipboardOwner) begin(to destination) bool {
	if o.watch(to.window, xproto.EventMaskPropertyChange|xproto.EventMaskStructureNotify) != nil ||
		o.numbers(to, o.atoms.incr, uint32(len(o.png))) != nil {
		return false
	}
	o.sends[to] = &send{o.png, time.Now().Add(sendTime)}
	return true
}

// goOn sends the next piece.
func (o *clipboardOwner) goOn(to destination) {
	s := o.sends[to]
	if s == nil {
		return
	}
	piece := s.rest[:min(len(s.rest), o.piece())]
	if o.bytes(to, piece) != nil || len(piece) == 0 {
		o.end(to)
		return
	}
	s.rest, s.till = s.rest[len(piece):], time.Now().Add(sendTime)
}

// expire gives up on what was not fetched in time.
func (o *clipboardOwner) expire(now time.Time) {
	for to, s := range o.sends {
		if now.After(s.till) {
			o.end(to)
		}
	}
}

// forget gives up on what was sent to a window that is gone.
func (o *clipboardOwner) forget(w xproto.Window) {
	for to := range o.sends {
		if to.window == w {
			delete(o.sends, to)
		}
	}
}

// end ends a send, and the watch over its window if it was the last there.
func (o *clipboardOwner) end(to destination) {
	delete(o.sends, to)
	for other := range o.sends {
		if other.window == to.window {
			return
		}
	}
	_ = o.watch(to.window, xproto.EventMaskNoEvent) // it may be gone
}

// watch says which events of a window of others we want.
func (o *clipboardOwner) watch(w xproto.Window, mask uint32) error {
	return xproto.ChangeWindowAttributesChecked(o.conn.X, w, xproto.CwEventMask, []uint32{mask}).Check()
}
