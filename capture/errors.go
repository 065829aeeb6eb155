package capture

import (
	"errors"
	"fmt"

	"app.tonedesk/capture/plainfile"
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

// What can go wrong with a picture file, beside fs.ErrNotExist and
// fs.ErrPermission.
var (
	// ErrNotPicture: the bytes are of no picture format that we read.
	ErrNotPicture = errors.New("not a picture")
	// ErrTruncated: the file ends before the picture does.
	ErrTruncated = errors.New("picture cut short")
	// ErrDamaged: a picture format that we read, with contents that make no sense.
	ErrDamaged = errors.New("picture damaged")
	// ErrKind: a picture, of a kind that we do not read (such as a TIFF in parts that
	// our decoder lacks, or an animation without a still).
	ErrKind = errors.New("kind of picture not supported")
	// ErrNoMerged: an OpenRaster file without its merged image; it wraps ErrKind.
	ErrNoMerged = fmt.Errorf("no merged image: %w", ErrKind)
	// ErrManyParts: an OpenRaster file of more parts than we look through; it wraps ErrHuge.
	ErrManyParts = fmt.Errorf("more than %d parts: %w", mostParts, ErrHuge)
	// ErrHuge: the picture claims more than MaxPixels pixels or MaxSide on a side, or the
	// file more than MaxFileBytes bytes.
	ErrHuge = errors.New("picture too large")
	// ErrEmptyFile: the file has no bytes.
	ErrEmptyFile = errors.New("file is empty")
	// ErrDirectory: the path is a directory, not a file.
	ErrDirectory = plainfile.ErrFolder
	// ErrNotFile: the path is a device, a pipe or a socket.
	ErrNotFile = plainfile.ErrNotPlain
)
