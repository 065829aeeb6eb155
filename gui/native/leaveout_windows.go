package native

import (
	"fmt"
	"sync"
	"unsafe"

	"golang.org/x/sys/windows"
)

var (
	setDisplayAffinity = user32.NewProc("SetWindowDisplayAffinity")
	getDisplayAffinity = user32.NewProc("GetWindowDisplayAffinity")
)

// What pictures of the screen hold where a window is, by winuser.h.
const (
	affinityNone    = 0
	affinityExclude = 0x11 // WDA_EXCLUDEFROMCAPTURE: what lies beneath it
)

// excludesFrom is the first build of Windows that leaves a window out: version 2004 of Windows 10. One
// before shows black in its place. Source: Microsoft, "SetWindowDisplayAffinity function".
const excludesFrom = 19041

// CanLeaveOut reports whether this system can leave a window out of pictures of the screen.
var CanLeaveOut = sync.OnceValue(func() bool {
	v := windows.RtlGetVersion()
	return v.MajorVersion >= 10 && v.BuildNumber >= excludesFrom
})

// LeaveOut has all pictures of the screen hold what lies beneath the window, or the window again. The
// error wraps ErrUnsupported where the system is too old, and ErrRefused where it says yes and
// doesn't.
func LeaveOut(handle uintptr, on bool) error {
	if !CanLeaveOut() {
		return ErrUnsupported
	}
	want := uintptr(affinityNone)
	if on {
		want = affinityExclude
	}
	if err := call(setDisplayAffinity, "leave the window out", handle, want); err != nil {
		return err
	}
	if LeftOut(handle) != on {
		return fmt.Errorf("leave the window out: %w", ErrRefused)
	}
	return nil
}

// LeftOut reports whether pictures of the screen hold what lies beneath the window.
func LeftOut(handle uintptr) bool {
	if !CanLeaveOut() {
		return false
	}
	var now uint32
	err := call(getDisplayAffinity, "is the window left out", handle, uintptr(unsafe.Pointer(&now)))
	return err == nil && now == affinityExclude
}
