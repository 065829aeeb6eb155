// Package pipewire takes the pictures of one video source from a PipeWire server, to which somebody
// else has opened the connection (the desktop portal).
//
// The library is loaded when it is first needed, so that the program starts without it, and the few
// functions and structures that are used are declared here, so that it is built without its headers.
// What is negotiated, and what comes back, is put together and taken apart in Go (package pod); only what
// the library calls on its own thread is C (source_linux.c), and that copies no pixels.
//
// # Sources
//
//   - PW: PipeWire 0.3.65, pipewire/stream.h, pipewire/context.h, pipewire/thread-loop.h.
//   - SPA: the same, spa/pod/pod.h, spa/utils/type.h, spa/param/*.h, spa/buffer/*.h.
package pipewire
