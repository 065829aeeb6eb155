package xvfbtest

import (
	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
)

// Listen has a window's program told of the buttons and keys that are pressed and let go over it.
func (p *Painter) Listen(window uint32) { p.t.Helper(); p.do("Listen", about(window)) }

// Heard returns how many of them it was told so far.
func (p *Painter) Heard() int { p.t.Helper(); return int(p.do("Heard", Order{})) }

// Takes reports whether a program can take the pointer and the keyboard; it gives both back.
func (p *Painter) Takes() bool { p.t.Helper(); return p.do("Take", Order{}) == 1 }

// Hold takes the pointer, as an open menu does, until Drop.
func (p *Painter) Hold() { p.t.Helper(); p.do("Hold", Order{}) }

// Drop gives the pointer back.
func (p *Painter) Drop() { p.t.Helper(); p.do("Drop", Order{}) }

// Listen selects the events.
func (a *artist) Listen(o Order, _ *uint32) error {
	const mask = xproto.EventMaskButtonPress | xproto.EventMaskButtonRelease | xproto.EventMaskKeyPress | xproto.EventMaskKeyRelease
	return xproto.ChangeWindowAttributesChecked(a.x, o.Window, xproto.CwEventMask, []uint32{mask}).Check()
}

// Heard tells how many came, all that the server sent before an event of our own among them.
func (a *artist) Heard(_ Order, n *uint32) error {
	w, err := xproto.NewWindowId(a.x)
	if err == nil {
		err = xproto.CreateWindowChecked(a.x, 0, w, a.screen.Root, 0, 0, 1, 1, 0, xproto.WindowClassInputOnly, 0, 0, nil).Check()
	}
	if err == nil {
		err = a.mark(w)
	}
	*n = a.heard.Load()
	return err
}

// mark sends an event to a window of ours and waits for it.
func (a *artist) mark(w xproto.Window) error {
	a.pings++
	event := xproto.ClientMessageEvent{Format: 32, Window: w, Type: a.atom("WM_PROTOCOLS"),
		Data: xproto.ClientMessageDataUnionData32New([]uint32{0, a.pings, 0, 0, 0})}
	if err := xproto.SendEventChecked(a.x, false, w, 0, string(event.Bytes())).Check(); err != nil {
		return err
	}
	for n := range a.pongs {
		if n == a.pings {
			break
		}
	}
	return xproto.DestroyWindowChecked(a.x, w).Check()
}

// hears counts an event of a button or a key.
func (a *artist) hears(event xgb.Event) {
	switch event.(type) {
	case xproto.ButtonPressEvent, xproto.ButtonReleaseEvent, xproto.KeyPressEvent, xproto.KeyReleaseEvent:
		a.heard.Add(1)
	}
}

// Take takes both, and gives them back.
func (a *artist) Take(_ Order, could *uint32) error {
	pointer, err := a.pointer()
	if err != nil {
		return err
	}
	keyboard, err := xproto.GrabKeyboard(a.x, false, a.screen.Root, xproto.TimeCurrentTime, xproto.GrabModeAsync, xproto.GrabModeAsync).Reply()
	if err != nil {
		return err
	}
	if pointer && keyboard.Status == xproto.GrabStatusSuccess {
		*could = 1
	}
	xproto.UngrabKeyboard(a.x, xproto.TimeCurrentTime)
	return xproto.UngrabPointerChecked(a.x, xproto.TimeCurrentTime).Check()
}

func (a *artist) pointer() (bool, error) {
	r, err := xproto.GrabPointer(a.x, false, a.screen.Root, 0, xproto.GrabModeAsync, xproto.GrabModeAsync, 0, 0, xproto.TimeCurrentTime).Reply()
	return err == nil && r.Status == xproto.GrabStatusSuccess, err
}

// Hold takes the pointer.
func (a *artist) Hold(Order, *uint32) error { _, err := a.pointer(); return err }

// Drop gives it back.
func (a *artist) Drop(Order, *uint32) error {
	return xproto.UngrabPointerChecked(a.x, xproto.TimeCurrentTime).Check()
}
