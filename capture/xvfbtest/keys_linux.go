package xvfbtest

import (
	"errors"

	"github.com/jezek/xgb/xproto"
)

// HoldKey holds a key of the whole desktop, by its keysym and the modifier bits with it, and reports
// whether that was given: it isn't while another program holds it.
func (p *Painter) HoldKey(sym, held int) bool {
	p.t.Helper()
	return p.do("HoldKey", Order{Sym: xproto.Keysym(sym), Held: uint16(held)}) == 1
}

// LetGoKey gives it back.
func (p *Painter) LetGoKey(sym, held int) {
	p.t.Helper()
	p.do("LetGoKey", Order{Sym: xproto.Keysym(sym), Held: uint16(held)})
}

// HoldKey holds a key; got is 1 if that is given.
func (a *artist) HoldKey(o Order, got *uint32) error {
	code, err := a.keycode(o.Sym)
	if err != nil {
		return err
	}
	err = xproto.GrabKeyChecked(a.x, false, a.screen.Root, o.Held, code, xproto.GrabModeAsync, xproto.GrabModeAsync).Check()
	if held := (xproto.AccessError{}); errors.As(err, &held) {
		return nil
	}
	*got = 1
	return err
}

// LetGoKey gives a key back.
func (a *artist) LetGoKey(o Order, _ *uint32) error {
	code, err := a.keycode(o.Sym)
	if err != nil {
		return err
	}
	return xproto.UngrabKeyChecked(a.x, code, a.screen.Root, o.Held).Check()
}

// keycode returns the first key that means a keysym, in whatever way.
func (a *artist) keycode(sym xproto.Keysym) (xproto.Keycode, error) {
	setup := xproto.Setup(a.x)
	reply, err := xproto.GetKeyboardMapping(a.x, setup.MinKeycode, byte(setup.MaxKeycode-setup.MinKeycode+1)).Reply()
	if err != nil {
		return 0, err
	}
	for i, s := range reply.Keysyms {
		if s == sym {
			return setup.MinKeycode + xproto.Keycode(i/int(reply.KeysymsPerKeycode)), nil
		}
	}
	return 0, errors.New("the keyboard has no such key")
}
