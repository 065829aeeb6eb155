//go:build !linux

package native

import "context"

// Pinches is not offered on this system. Windows sends turns of the wheel instead to
// windows that don't ask for pinches (from memory).
func Pinches(context.Context, uintptr, func(Pinch)) error { return ErrUnsupported }
