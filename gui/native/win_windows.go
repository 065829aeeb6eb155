package native

import (
	"fmt"
	"image"
	"unsafe"

	"golang.org/x/sys/windows"
)

var (
	user32        = windows.NewLazySystemDLL("user32.dll")
	setWindowPos  = user32.NewProc("SetWindowPos")
	getWindowRect = user32.NewProc("GetWindowRect")
	getClientRect = user32.NewProc("GetClientRect")
	clientToScr   = user32.NewProc("ClientToScreen")
	isIconic      = user32.NewProc("IsIconic")
)

// Constants of winuser.h.
const (
	hwndTopmost   = ^uintptr(0)     // -1
	hwndNoTopmost = ^uintptr(0) - 1 // -2
	swpNoSize     = 0x1
	swpNoMove     = 0x2
	swpNoZOrder   = 0x4
	swpNoActivate = 0x10
)

// SameDisplay reports whether the watched display is the window's own: there is one.
func SameDisplay() bool { return true }

// WaylandSession reports that this system has none.
func WaylandSession() bool { return false }

func call(p *windows.LazyProc, what string, args ...uintptr) error {
	if args[0] == 0 {
		return ErrNoWindow
	}
	if ok, _, err := p.Call(args...); ok == 0 {
		return fmt.Errorf("%s: %w", what, err)
	}
	return nil
}

// StaysAbove reports that this system keeps windows above others.
func StaysAbove() bool { return true }

// KeepAbove keeps the window above others, or no longer.
func KeepAbove(handle uintptr, on bool) error {
	after := hwndNoTopmost
	if on {
		after = hwndTopmost
	}
	return call(setWindowPos, "keep the window above", handle, after, 0, 0, 0, 0, swpNoMove|swpNoSize|swpNoActivate)
}

// FrameRect returns where the window is with its frame.
func FrameRect(handle uintptr) (image.Rectangle, error) {
	var r windows.Rect
	err := call(getWindowRect, "place of the window", handle, uintptr(unsafe.Pointer(&r)))
	return image.Rect(int(r.Left), int(r.Top), int(r.Right), int(r.Bottom)), err
}

// ClientRect returns where the window's inside is.
func ClientRect(handle uintptr) (image.Rectangle, error) {
	var r windows.Rect
	if err := call(getClientRect, "size of the window", handle, uintptr(unsafe.Pointer(&r))); err != nil {
		return image.Rectangle{}, err
	}
	var corner struct{ x, y int32 }
	err := call(clientToScr, "place of the window", handle, uintptr(unsafe.Pointer(&corner)))
	return image.Rect(0, 0, int(r.Right), int(r.Bottom)).Add(image.Pt(int(corner.x), int(corner.y))), err
}

// Hidden reports whether the window is minimised.
func Hidden(handle uintptr) (bool, error) {
	if handle == 0 {
		return false, ErrNoWindow
	}
	iconic, _, _ := isIconic.Call(handle)
	return iconic != 0, nil
}

// MoveTo puts the corner of the window's inside at a point of the desktop.
func MoveTo(handle uintptr, at image.Point) error {
	frame, err := FrameRect(handle)
	if err != nil {
		return err
	}
	inside, err := ClientRect(handle)
	if err != nil {
		return err
	}
	at = at.Sub(inside.Min.Sub(frame.Min))
	return call(setWindowPos, "move the window", handle, 0, uintptr(at.X), uintptr(at.Y), 0, 0, swpNoSize|swpNoZOrder|swpNoActivate)
}

// CoverDesktop makes a window without a frame lie over the whole desktop, above all others.
func CoverDesktop(handle uintptr, desktop image.Rectangle) error {
	return call(setWindowPos, "cover the desktop", handle, hwndTopmost,
		uintptr(desktop.Min.X), uintptr(desktop.Min.Y), uintptr(desktop.Dx()), uintptr(desktop.Dy()), 0)
}
