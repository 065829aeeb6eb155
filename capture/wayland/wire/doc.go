// Package wire reads and writes the messages of the Wayland protocol, and carries them over a socket with
// the open files that go with them. It knows no interface of that protocol.
//
// # Source
//
//   - WL: The Wayland Protocol, version 1.21, "Wire Format": words of 32 bits in the machine's own order; a
//     message is the object, its size in bytes over its number, and its arguments.
package wire
