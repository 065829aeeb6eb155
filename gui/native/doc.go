// Package native asks a system for what the toolkit can't: to keep a window above others,
// where a window is, to put it somewhere, to put a picture on the clipboard, and to hear keys
// while another program has the keyboard.
//
// Windows are named by the handle that the toolkit gives: the X11 window, or the HWND of
// Windows. Rectangles count desktop pixels. Calls may wait for the system; make them from
// one goroutine at a time per window.
package native

import (
	"errors"
	"fmt"
	"image"
)

var (
	// ErrUnsupported: this system offers no way.
	ErrUnsupported = errors.New("not supported on this system")
	// ErrOtherDisplay: the screen that is watched is another than the window's own, and
	// the one connection goes there.
	ErrOtherDisplay = errors.New("another display is watched")
	// ErrNoWindow: there is no such window, or not yet.
	ErrNoWindow = errors.New("no such window")
	// ErrRefused: the desktop does not do this for windows.
	ErrRefused = errors.New("the desktop does not offer it")
	// ErrClipboardBusy: another program has the clipboard, or took it at the same moment.
	ErrClipboardBusy = errors.New("another program has the clipboard")
	// ErrKeyHeld: another program holds the key.
	ErrKeyHeld = errors.New("another program holds the key")
	// ErrNoKey: the keyboard has no such key.
	ErrNoKey = errors.New("no such key on the keyboard")
	// ErrUngiven: the desktop, which has the keys, gave this one to nobody.
	ErrUngiven = errors.New("the desktop gave no key")
	// ErrWayland: the session is a Wayland one, which hands keys to the window in front alone. It
	// is an ErrUnsupported too.
	ErrWayland = fmt.Errorf("wayland session: %w", ErrUnsupported)
	// ErrKeysLost: the keys were held, and the system has taken them back.
	ErrKeysLost = errors.New("the keys are no longer held")
)

// KeyHearer hears of the keys that are held. Both functions are called on a goroutine of this
// package, and return at once.
type KeyHearer struct {
	Pressed func(i int, at image.Point)      // the chord i; where the pointer was, in desktop pixels
	Changed func(each []error, failed error) // what became of the chords later, as of HoldKeys
}
