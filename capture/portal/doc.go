// Package portal is the way to the screen in a Wayland session: the desktop's portal asks the painter,
// in a dialog of its own, which screen or window to share, and PipeWire brings the pictures (package
// pipewire). Windows of X11 programs are followed beside it, without a dialog, as package capture does.
//
// A session holds what is shared. It is begun by the painter's word (Ask), or without a dialog by a
// token that the portal gave the time before; it ends when nobody reads it any more, so that nothing
// is shared that isn't watched, and when the desktop says so. A token is good for one use, and is
// never written to a log.
//
// Beside the screen it asks the portal for keys of the whole desktop, where that alone hands any out
// (AskShortcuts), over a connection of their own.
//
// # Sources
//
//   - XDP: xdg-desktop-portal 1.16, org.freedesktop.portal.ScreenCast (version 4), .Request, .Session.
//   - XDPG: the same of 1.20, org.freedesktop.portal.GlobalShortcuts (version 1 of it is enough), and
//     org.freedesktop.host.portal.Registry.
//   - SHORTCUTS: freedesktop.org, Shortcuts Specification 0.1, 2022: how keys are written.
package portal
