//go:build !linux || !cgo

package lean

// trim does nothing: this system's C library sees to that itself.
func trim() {}
