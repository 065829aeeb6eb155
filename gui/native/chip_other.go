//go:build !linux

package native

import "image"

// Chip is a small picture on the screen, above all windows, that takes no click: not offered on this
// system.
type Chip struct{}

// Show is not offered on this system.
func (*Chip) Show(*image.RGBA, image.Point) error { return ErrUnsupported }

// Move is not offered on this system.
func (*Chip) Move(image.Point) error { return ErrUnsupported }

// Hide has nothing to take off.
func (*Chip) Hide() error { return nil }
