//go:build !linux || !cgo

package pipewire

import "image"

// Source is not offered in this build.
type Source struct{}

// Loads reports that there is no library: the error is ErrLibrary.
func Loads() error { return ErrLibrary }

// Open is not offered in this build: the error is ErrLibrary.
func Open(int, uint32, func()) (*Source, error) { return nil, ErrLibrary }

// Read is never called.
func (*Source) Read(image.Rectangle, uint64, []byte) (Picture, error) { return Picture{}, ErrLibrary }

// Close is never called.
func (*Source) Close() {}
