// Package wayland reads the screens of a Wayland session whose compositor lets every program do that: by
// ext-image-copy-capture, or else by wlr-screencopy. There is no dialog, so it is to be used only where the
// painter asked for it, and where the desktop has no portal that would ask.
//
// It speaks the protocol itself (package wire), and only as much of it as this takes: the list of what the
// compositor offers, its screens, memory that both share, and the copying. Each stream has a connection of its
// own, and a goroutine that listens to it. The next picture is asked for when one was taken, and the compositor
// answers when something has changed: so an unchanged screen costs nothing.
//
// # Sources
//
//   - WL: The Wayland Protocol, version 1.21: wl_display, wl_registry, wl_shm, wl_output.
//   - XDG: wayland-protocols 1.31, xdg-output-unstable-v1 (version 2).
//   - WLR: wlr-protocols, wlr-screencopy-unstable-v1 (version 3).
//   - EXT: wayland-protocols 1.37, ext-image-copy-capture-v1 and ext-image-capture-source-v1 (version 1).
//   - DRM: Linux, include/uapi/drm/drm_fourcc.h: the numbers of pixel formats, which wl_shm shares but for two.
package wayland
