//go:build !windows

package native

// CanLeaveOut reports whether this system can leave a window out of pictures of the screen: it is
// offered on Windows alone.
func CanLeaveOut() bool { return false }

// LeaveOut is not offered on this system.
func LeaveOut(uintptr, bool) error { return ErrUnsupported }

// LeftOut reports whether pictures of the screen hold what lies beneath the window.
func LeftOut(uintptr) bool { return false }
