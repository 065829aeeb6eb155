package capture

import (
	"errors"
	"fmt"
)

// What can go wrong with a screen. Errors of this package wrap one of these, or an
// error of io/fs, wherever a reader needs another explanation.
var (
	// ErrUnsupported: this system, or this build of the program, has no way to read
	// the screen.
	ErrUnsupported = errors.New("screen reading is not supported here")
	// ErrWayland: the session is a Wayland one, whose screen only the compositor may
	// read. It is an ErrUnsupported too.
	ErrWayland = fmt.Errorf("wayland session: %w", ErrUnsupported)
	// ErrNoPortal: the desktop has no service by which programs ask for the screen. It is an
	// ErrUnsupported too.
	ErrNoPortal = fmt.Errorf("no portal that shares the screen: %w", ErrUnsupported)
	// ErrNoLibrary: what takes shared pictures, libpipewire, is not installed. It is an
	// ErrUnsupported too.
	ErrNoLibrary = fmt.Errorf("no libpipewire: %w", ErrUnsupported)
	// ErrSharing: the desktop's service for sharing failed, or answered what can't be understood.
	ErrSharing = errors.New("sharing the screen failed")
	// ErrUnanswered: nobody answered the desktop's question what to share.
	ErrUnanswered = errors.New("question of the desktop's not answered")
	// ErrNotShared: nothing is shared, and it needs the painter's word to begin.
	ErrNotShared = errors.New("nothing is shared")
	// ErrStopped: the desktop, or the painter by its means, has ended the sharing.
	ErrStopped = errors.New("sharing stopped")
	// ErrFormat: the display's pixel format is one that we cannot read rightly.
	ErrFormat = errors.New("pixel format not supported")
	// ErrGone: the source is no more, such as a region off all screens or a monitor
	// that was switched off.
	ErrGone = errors.New("source gone")
	// ErrNoWindow: no window of that title and class is open. The stream goes on looking.
	ErrNoWindow = errors.New("window closed")
	// ErrMinimised: the followed window is minimised, or on another workspace, so that its
	// program paints nothing.
	ErrMinimised = errors.New("window minimised")
	// ErrPart: the part chosen of a window is outside of it now.
	ErrPart = errors.New("part outside the window")
	// ErrGivenUp: the painter, or whoever asked, ended a choosing.
	ErrGivenUp = errors.New("given up")
	// ErrPointerTaken: another program holds the pointer or the keyboard.
	ErrPointerTaken = errors.New("pointer taken by another program")
	// ErrLocked: the user's screen is locked, or shows a question of the system's. The stream
	// goes on by itself.
	ErrLocked = errors.New("screen locked")
	// ErrNotAnswering: a call has not returned in time.
	ErrNotAnswering = errors.New("not answering")
	// ErrDisconnected: the connection to the display broke.
	ErrDisconnected = errors.New("connection to the display lost")
	// ErrRefused: the display did not accept us (authority, permission).
	ErrRefused = errors.New("connection to the display refused")
	// ErrNoDisplay: no display is named, or nothing listens under its name.
	ErrNoDisplay = errors.New("no display")
	// ErrNamed: it is the display that DisplayVariable names; beside ErrNoDisplay.
	ErrNamed = errors.New("named by " + DisplayVariable)
	// ErrOutside: the region meets no part of the desktop.
	ErrOutside = errors.New("region outside the desktop")
	// ErrEmpty: the region has no pixels.
	ErrEmpty = errors.New("region is empty")
	// ErrClosed: the stream or backend was closed by its owner.
	ErrClosed = errors.New("closed")
)

// DisplayVariable names the X display to watch, where that is another than the
// window's own (DISPLAY).
const DisplayVariable = "TONEDESK_DISPLAY"
