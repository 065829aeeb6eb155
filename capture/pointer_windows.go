package capture

import (
	"fmt"
	"image"
	"unsafe"

	"golang.org/x/sys/windows"
)

var cursorPos = windows.NewLazySystemDLL("user32.dll").NewProc("GetCursorPos")

// pointerAt returns where the pointer is, in desktop pixels.
func pointerAt() (image.Point, error) {
	var at struct{ X, Y int32 } // POINT of windef.h
	if ok, _, err := cursorPos.Call(uintptr(unsafe.Pointer(&at))); ok == 0 {
		return image.Point{}, fmt.Errorf("place of the pointer: %w", err)
	}
	return image.Pt(int(at.X), int(at.Y)), nil
}
