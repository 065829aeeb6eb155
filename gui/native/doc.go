// Package native asks a system for what the toolkit can't: to keep a window above others,
// where a window is, to put it somewhere, and to put a picture on the clipboard.
//
// Windows are named by the handle that the toolkit gives: the X11 window, or the HWND of
// Windows. Rectangles count desktop pixels. Calls may wait for the system; make them from
// one goroutine at a time per window.
package native

import "errors"

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
)
