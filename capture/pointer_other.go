//go:build !windows

package capture

import "image"

// pointerAt is not offered on this system.
func pointerAt() (image.Point, error) { return image.Point{}, ErrUnsupported }
