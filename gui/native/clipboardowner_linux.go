package native

import (
	"context"
	"encoding/binary"
	"fmt"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// mostAsked bounds the events that wait to be answered; more of them are dropped, and who
// asked then asks in vain. Our choice: far more than programs paste at a time.
const mostAsked = 1024

// clipboardOwner owns the clipboard for this program and answers those who paste, on a
// goroutine of its own that ends when another program has copied something and every
// picture under way has arrived. Source: Inter-Client Communication Conventions Manual
// (ICCCM), version 2.0 (X Consortium, 1994), section 2.
type clipboardOwner struct {
	conn   *xconn.Conn
	atoms  clipboardAtoms
	window xproto.Window // never shown: whose window owns the clipboard gets the requests

	offers  chan []byte           // pictures to copy
	answers chan error            // whether that went well
	asked   chan xgb.Event        // what others ask, and what becomes of it
	stamps  chan xproto.Timestamp // the server's time when window's property changed
	lost    chan struct{}         // the clipboard may be another's by now
	done    chan struct{}         // closed at the end
	cancel  func()                // ends the subscription

	// The rest is the goroutine's alone.
	png   []byte // nil: the clipboard is another's
	since xproto.Timestamp
	sends map[destination]*send
}

// newClipboardOwner makes ready; nothing is owned yet.
func newClipboardOwner(c *xconn.Conn) (*clipboardOwner, error) {
	atoms, err := newClipboardAtoms(c)
	if err != nil {
		return nil, fmt.Errorf("names of the clipboard: %w", err)
	}
	w, err := xproto.NewWindowId(c.X)
	if err == nil {
		err = xproto.CreateWindowChecked(c.X, 0, w, c.Screen.Root, 0, 0, 1, 1, 0, xproto.WindowClassInputOnly,
			c.Screen.RootVisual, xproto.CwEventMask, []uint32{xproto.EventMaskPropertyChange}).Check()
	}
	if err != nil {
		return nil, fmt.Errorf("window for the clipboard: %w", err)
	}
	o := &clipboardOwner{
		conn: c, atoms: atoms, window: w,
		offers: make(chan []byte), answers: make(chan error, 1),
		asked: make(chan xgb.Event, mostAsked), stamps: make(chan xproto.Timestamp, 1),
		lost: make(chan struct{}, 1), done: make(chan struct{}),
		sends: map[destination]*send{},
	}
	o.cancel = c.Subscribe(o.receive)
	return o, nil
}

// ended says whether the owner has let go for good.
func (o *clipboardOwner) ended() bool {
	select {
	case <-o.done:
		return true
	default:
		return false
	}
}

// receive takes an event; it runs on the connection's goroutine.
func (o *clipboardOwner) receive(event xgb.Event) {
	switch e := event.(type) {
	case xproto.SelectionClearEvent:
		if e.Owner == o.window {
			offer(o.lost, struct{}{})
		}
	case xproto.SelectionRequestEvent:
		if e.Owner == o.window {
			offer(o.asked, event)
		}
	case xproto.PropertyNotifyEvent:
		if e.Window == o.window {
			offer(o.stamps, e.Time)
		} else if e.State == xproto.PropertyDelete {
			offer(o.asked, event)
		}
	case xproto.DestroyNotifyEvent:
		offer(o.asked, event)
	}
}

// offer sends v if there is room for it.
func offer[T any](to chan<- T, v T) {
	select {
	case to <- v:
	default:
	}
}

// run serves until the owner has let go or the connection ends. A reply that makes no sense
// ends it too: the line turns the client library's panic into an error.
func (o *clipboardOwner) run() {
	defer close(o.done)
	var line xconn.Line
	_ = line.Do(context.Background(), o.serve) // whoever waits sees done
	o.png, o.sends = nil, nil                  // the memory: owned may point here for long
	o.cancel()
	xproto.DestroyWindow(o.conn.X, o.window)
}

func (o *clipboardOwner) serve() error {
	for {
		var late <-chan time.Time
		if len(o.sends) > 0 {
			late = time.After(sendTime)
		}
		var err error
		select {
		case o.png = <-o.offers:
			claimed := o.claim()
			if claimed != nil {
				if _, err = o.now(); err == nil { // who asked while it was still ours would wait in vain
					o.answerWaiting()
					err = o.look()
				}
			}
			o.answers <- claimed
		case event := <-o.asked:
			o.answer(event)
		case <-o.lost:
			o.answerWaiting()
			err = o.look()
		case <-late:
		case <-o.conn.Done():
			return nil
		}
		o.expire(time.Now())
		if err != nil || o.png == nil && len(o.sends) == 0 {
			return err
		}
	}
}

// claim takes the clipboard, at the server's time of now, as the convention has it.
// Source: ICCCM, section 2.1.
func (o *clipboardOwner) claim() error {
	var err error
	if o.since, err = o.now(); err != nil {
		return err
	}
	if err := xproto.SetSelectionOwnerChecked(o.conn.X, o.window, o.atoms.clipboard, o.since).Check(); err != nil {
		return fmt.Errorf("take the clipboard: %w", err)
	}
	ours, err := o.owns()
	if err == nil && !ours {
		err = ErrClipboardBusy
	}
	if err != nil {
		return fmt.Errorf("take the clipboard: %w", err)
	}
	return nil
}

// now asks for the server's time. What was asked of the owner before then has been heard.
func (o *clipboardOwner) now() (xproto.Timestamp, error) {
	select {
	case <-o.stamps: // somebody else's
	default:
	}
	err := xproto.ChangePropertyChecked(o.conn.X, xproto.PropModeAppend, o.window, xproto.AtomWmName, xproto.AtomString, 8, 0, nil).Check()
	if err != nil {
		return 0, fmt.Errorf("ask for the display's time: %w", err)
	}
	select {
	case stamp := <-o.stamps:
		return stamp, nil
	case <-o.conn.Done():
		return 0, fmt.Errorf("ask for the display's time: %w", xconn.ErrBroken)
	}
}

// owns asks whether the clipboard is ours.
func (o *clipboardOwner) owns() (bool, error) {
	reply, err := xproto.GetSelectionOwner(o.conn.X, o.atoms.clipboard).Reply()
	return err == nil && reply.Owner == o.window, err
}

// look lets the picture go if the clipboard is another's.
func (o *clipboardOwner) look() error {
	ours, err := o.owns()
	if err == nil && !ours {
		o.png = nil
	}
	return err
}

// answerWaiting answers what was asked before now, when the picture may still have been ours
// to give.
func (o *clipboardOwner) answerWaiting() {
	for range len(o.asked) {
		o.answer(<-o.asked)
	}
}

// answer does what an event asks for.
func (o *clipboardOwner) answer(event xgb.Event) {
	switch e := event.(type) {
	case xproto.SelectionRequestEvent:
		o.give(e)
	case xproto.PropertyNotifyEvent:
		o.goOn(destination{e.Window, e.Atom})
	case xproto.DestroyNotifyEvent:
		o.forget(e.Window)
	}
}

// give answers a request. The times in requests are not looked at: who asks late gets what
// is there now. Source: ICCCM, section 2.2.
func (o *clipboardOwner) give(e xproto.SelectionRequestEvent) {
	to := destination{e.Requestor, e.Property}
	if to.property == xproto.AtomNone { // a requestor from before the convention
		to.property = e.Target
	}
	watched := to.window == o.conn.Screen.Root || to.window == o.window // sending would end that
	if o.png == nil || e.Selection != o.atoms.clipboard || watched || !o.convert(e.Target, to) {
		to.property = xproto.AtomNone
	}
	notice := xproto.SelectionNotifyEvent{
		Time: e.Time, Requestor: e.Requestor, Selection: e.Selection, Target: e.Target, Property: to.property,
	}
	xproto.SendEvent(o.conn.X, false, e.Requestor, xproto.EventMaskNoEvent, string(notice.Bytes()))
}

// convert puts what was asked for where it was asked to; false if that can't be done.
// Several targets in one request (MULTIPLE) are refused. Source: ICCCM, section 2.6.2.
func (o *clipboardOwner) convert(target xproto.Atom, to destination) bool {
	switch target {
	case o.atoms.targets:
		return o.numbers(to, xproto.AtomAtom, uint32(o.atoms.targets), uint32(o.atoms.timestamp), uint32(o.atoms.png)) == nil
	case o.atoms.timestamp:
		return o.numbers(to, xproto.AtomInteger, uint32(o.since)) == nil
	case o.atoms.png:
		if len(o.png) <= o.piece() {
			return o.bytes(to, o.png) == nil
		}
		return o.begin(to)
	}
	return false
}

// bytes puts a picture, or a piece of one, into a property.
func (o *clipboardOwner) bytes(to destination, b []byte) error {
	return xproto.ChangePropertyChecked(o.conn.X, xproto.PropModeReplace, to.window, to.property, o.atoms.png, 8, uint32(len(b)), b).Check()
}

// numbers puts numbers into a property.
func (o *clipboardOwner) numbers(to destination, kind xproto.Atom, numbers ...uint32) error {
	var b []byte
	for _, n := range numbers {
		b = binary.LittleEndian.AppendUint32(b, n)
	}
	return xproto.ChangePropertyChecked(o.conn.X, xproto.PropModeReplace, to.window, to.property, kind, 32, uint32(len(numbers)), b).Check()
}
