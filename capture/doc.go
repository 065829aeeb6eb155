// Package capture reads pictures off the screen and
// hands over the newest one.
//
// A Backend is a way into one system's screen; a Stream reads one region of it
// again and again, or follows a window (Follower); a Watcher asks a stream on a timer, or
// when it tells of a change (Notifier), and says how it goes. The
// package knows nothing of lightness, windows or widgets: it gives plain rows of
// bytes with a stride and a layout.
//
// Everything is measured in desktop pixels: device pixels from the top left of
// the whole desktop (on X11: of the root window), y downwards. No coordinate is
// scaled for the sake of a display's density.
//
// Screens may show private things. Frames stay in memory, nothing here writes a
// file or opens a network connection other than the display's own.
package capture
