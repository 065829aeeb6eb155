package native

import (
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// Keysyms of keys that are held, and of locks. Source: X Window System Protocol, X11R7.7,
// Appendix A.
const (
	symNumLock    = 0xff7f
	symScrollLock = 0xff14
	symAltLeft    = 0xffe9
	symAltRight   = 0xffea
	symSuperLeft  = 0xffeb
	symSuperRight = 0xffec
)

// allModifiers are the bits of an event's state that keys stand for; buttons have the others.
const allModifiers = 0xff

// keyboard is what the keys of a keyboard mean.
type keyboard struct {
	first xproto.Keycode  // the keycode of the first row
	wide  int             // keysyms a key
	syms  []xproto.Keysym // a row a key: plain, with Shift, and so on

	alt, super uint16   // modifier bits
	locks      []uint16 // every set of locks that can be on, none included
}

// askKeyboard asks what the keys mean now.
func askKeyboard(c *xconn.Conn) (keyboard, error) {
	first, last := c.Setup.MinKeycode, c.Setup.MaxKeycode
	meaning, err := xproto.GetKeyboardMapping(c.X, first, byte(last-first+1)).Reply()
	if err != nil {
		return keyboard{}, err
	}
	modifiers, err := xproto.GetModifierMapping(c.X).Reply()
	if err != nil {
		return keyboard{}, err
	}
	k := keyboard{first: first, wide: int(meaning.KeysymsPerKeycode), syms: meaning.Keysyms}
	k.learn(modifiers.Keycodes, int(modifiers.KeycodesPerModifier))
	return k, nil
}

// learn finds out which modifiers the keys stand for: each of the eight bits has so many keycodes.
// CapsLock always is the second; Alt and Super are the fourth and the seventh where no key says.
// Source: X Window System Protocol, X11R7.7, sections 1 and 9 (GetModifierMapping).
func (k *keyboard) learn(codes []xproto.Keycode, per int) {
	of := func(syms ...xproto.Keysym) (bits uint16) {
		for i, code := range codes {
			for _, sym := range syms {
				if code != 0 && k.means(code, sym) {
					bits |= 1 << (i / per)
				}
			}
		}
		return bits
	}
	if k.alt = of(symAltLeft, symAltRight); k.alt == 0 {
		k.alt = xproto.ModMask1
	}
	if k.super = of(symSuperLeft, symSuperRight); k.super == 0 {
		k.super = xproto.ModMask4
	}
	k.locks = []uint16{0}
	for _, lock := range []uint16{xproto.ModMaskLock, of(symNumLock), of(symScrollLock)} {
		for _, with := range k.locks {
			if with|lock != with {
				k.locks = append(k.locks, with|lock)
			}
		}
	}
}

// row is what a key means.
func (k *keyboard) row(code xproto.Keycode) []xproto.Keysym {
	at := int(code-k.first) * k.wide
	if code < k.first || at+k.wide > len(k.syms) {
		return nil
	}
	return k.syms[at : at+k.wide]
}

func (k *keyboard) means(code xproto.Keycode, sym xproto.Keysym) bool {
	for _, s := range k.row(code) {
		if s == sym {
			return true
		}
	}
	return false
}

// code returns the key that means a keysym: the one that means it with the least held; 0 for none.
func (k *keyboard) code(sym xproto.Keysym) xproto.Keycode {
	for level := range k.wide {
		for at := level; at < len(k.syms); at += k.wide {
			if k.syms[at] == sym {
				return k.first + xproto.Keycode(at/k.wide)
			}
		}
	}
	return 0
}

// grabsOf returns what to hold for a chord, one for every set of locks; none where the keyboard
// lacks its key.
func (k *keyboard) grabsOf(c Chord) (all []grab) {
	key, _ := keyNamed(c.Key)
	code := k.code(xproto.Keysym(key.sym))
	if key.sym == 0 || code == 0 {
		return nil
	}
	var held uint16
	for _, h := range []struct {
		on   bool
		bits uint16
	}{{c.Ctrl, xproto.ModMaskControl}, {c.Alt, k.alt}, {c.Shift, xproto.ModMaskShift}, {c.Super, k.super}} {
		if h.on {
			held |= h.bits
		}
	}
	for _, lock := range k.locks {
		if g := (grab{code, held | lock}); lock&held == 0 {
			all = append(all, g)
		}
	}
	return all
}
