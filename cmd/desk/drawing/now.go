package drawing

import (
	"fmt"
	"unsafe"

	"fyne.io/fyne/v2"
)

// drawFrame draws every window of which something has changed, as the toolkit does at a turn of its loop
// (fyne 2.7.1, internal/driver/glfw/loop.go). A window that it drew is not drawn again at the next turn.
//
//go:linkname drawFrame fyne.io/fyne/v2/internal/driver/glfw.(*gLDriver).drawSingleFrame
func drawFrame(driver unsafe.Pointer)

// By returns what draws the windows of a driver at once, to be called on the Fyne goroutine from within
// fyne.Do, where the toolkit's loop stands between two turns. It does nothing for another driver than the
// desktop's.
func By(driver fyne.Driver) func() {
	if fmt.Sprintf("%T", driver) != "*glfw.gLDriver" {
		return func() {}
	}
	words := (*[2]unsafe.Pointer)(unsafe.Pointer(&driver)) // an interface's type, and the pointer that it holds
	pointer := words[1]
	return func() { drawFrame(pointer) }
}
