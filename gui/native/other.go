//go:build !linux && !windows

package native

import "image"

// SameDisplay reports whether the watched display is the window's own.
func SameDisplay() bool { return true }

// WaylandSession reports that this system has none.
func WaylandSession() bool { return false }

// StaysAbove reports that this system doesn't.
func StaysAbove() bool { return false }

// KeepAbove is not offered on this system.
func KeepAbove(uintptr, bool) error { return ErrUnsupported }

// FrameRect is not offered on this system.
func FrameRect(uintptr) (image.Rectangle, error) { return image.Rectangle{}, ErrUnsupported }

// ClientRect is not offered on this system.
func ClientRect(uintptr) (image.Rectangle, error) { return image.Rectangle{}, ErrUnsupported }

// Hidden is not offered on this system.
func Hidden(uintptr) (bool, error) { return false, ErrUnsupported }

// MoveTo is not offered on this system.
func MoveTo(uintptr, image.Point) error { return ErrUnsupported }

// CoverDesktop is not offered on this system.
func CoverDesktop(uintptr, image.Rectangle) error { return ErrUnsupported }

// Screens is not offered on this system.
func Screens() ([]image.Rectangle, error) { return nil, ErrUnsupported }

// CopyPicture is not offered on this system.
func CopyPicture([]byte) error { return ErrUnsupported }

// HoldKeys is not offered on this system.
func HoldKeys([]Chord, KeyHearer) ([]error, error) { return nil, ErrUnsupported }

// Topmost is not offered on this system.
func Topmost(uintptr, image.Point) (bool, error) { return false, ErrUnsupported }
