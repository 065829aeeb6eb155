package native

import (
	"fmt"
	"image"
	"sync"

	"golang.org/x/sys/windows"
)

var enumDisplayMonitors = user32.NewProc("EnumDisplayMonitors")

// found are the screens of one look, and looking is held while one is taken: the system calls back
// on the thread that asks. A callback is made once, since it stays for ever.
var (
	looking   sync.Mutex
	found     []image.Rectangle
	addScreen = sync.OnceValue(func() uintptr {
		return windows.NewCallback(func(_, _ uintptr, at *windows.Rect, _ uintptr) uintptr {
			found = append(found, image.Rect(int(at.Left), int(at.Top), int(at.Right), int(at.Bottom)))
			return 1 // go on
		})
	})
)

// Screens returns where the screens are, in pixels: the program is told these of each screen (its
// manifest asks for that).
func Screens() ([]image.Rectangle, error) {
	looking.Lock()
	defer looking.Unlock()
	found = nil
	if ok, _, err := enumDisplayMonitors.Call(0, 0, addScreen(), 0); ok == 0 {
		return nil, fmt.Errorf("places of the screens: %w", err)
	}
	return found, nil
}
