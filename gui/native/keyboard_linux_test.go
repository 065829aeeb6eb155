package native

import (
	"slices"
	"testing"

	"github.com/jezek/xgb/xproto"
	"pgregory.net/rapid"
)

// keys of a small keyboard, two keysyms each, from keycode 8 on: a, 1, Alt, NumLock, ScrollLock, Super.
var small = []xproto.Keysym{'a', 'A', '&', '1', symAltLeft, 0, symNumLock, 0, symScrollLock, 0, symSuperLeft, 0}

// Source of the tables: X Window System Protocol, X11R7.7: the modifiers are Shift, Lock, Control,
// Mod1 to Mod5, bits 1 to 128; a chord is held once for each set of locks.
func TestKeyboard(t *testing.T) {
	k := keyboard{first: 8, wide: 2, syms: small}
	//        Shift Lock  Ctrl  Mod1   Mod2   Mod3   Mod4   Mod5
	k.learn([]xproto.Keycode{0, 0, 0, 0, 0, 0, 10, 0, 11, 0, 0, 0, 0, 13, 12, 0}, 2)
	if k.alt != xproto.ModMask1 || k.super != xproto.ModMask4 {
		t.Errorf("Alt is %#x, Super %#x", k.alt, k.super)
	}
	slices.Sort(k.locks)
	if want := []uint16{0, 2, 16, 18, 128, 130, 144, 146}; !slices.Equal(k.locks, want) { // Lock 2, NumLock 16, ScrollLock 128
		t.Errorf("sets of locks %v, want %v", k.locks, want)
	}
	one, _ := ParseChord("Ctrl+Alt+1")
	grabs := k.grabsOf(one)
	if len(grabs) != 8 || grabs[0] != (grab{9, xproto.ModMaskControl | xproto.ModMask1}) {
		t.Errorf("held: %v", grabs)
	}
	if gone, _ := ParseChord("Ctrl+Alt+B"); len(k.grabsOf(gone)) != 0 {
		t.Error("a key that isn't there is held")
	}
	k.learn(nil, 0) // a keyboard that says nothing
	if k.alt != xproto.ModMask1 || k.super != xproto.ModMask4 || len(k.locks) != 2 {
		t.Errorf("without modifiers: %+v", k)
	}
}

// Whatever a server says of its keyboard, every chord is held once for a set of locks, with what is
// to be held in each.
func TestKeyboardLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sym := rapid.SampledFrom(append([]xproto.Keysym{0, 'b'}, small...))
		k := keyboard{first: rapid.Custom(func(t *rapid.T) xproto.Keycode { return xproto.Keycode(rapid.IntRange(8, 255).Draw(t, "first")) }).Draw(t, "first"), wide: rapid.IntRange(0, 4).Draw(t, "wide")}
		k.syms = rapid.SliceOfN(sym, 0, 60).Draw(t, "syms")
		per := rapid.IntRange(0, 3).Draw(t, "per")
		codes := rapid.SliceOfN(rapid.Byte(), 8*per, 8*per).Draw(t, "codes")
		of := make([]xproto.Keycode, len(codes))
		for i, c := range codes {
			of[i] = xproto.Keycode(c)
		}
		k.learn(of, per)
		c, _ := ParseChord("Ctrl+Alt+" + rapid.SampledFrom([]string{"A", "B", "1"}).Draw(t, "key"))
		grabs := k.grabsOf(c)
		for i, g := range grabs {
			if slices.Contains(grabs[:i], g) || g.mods&(xproto.ModMaskControl|k.alt) != xproto.ModMaskControl|k.alt {
				t.Errorf("held: %v", grabs)
			}
		}
	})
}
