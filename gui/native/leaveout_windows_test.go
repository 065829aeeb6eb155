package native

import (
	"errors"
	"testing"
	"time"
	"unsafe"

	"golang.org/x/sys/windows"
)

// A window of white is in pictures of the screen, not while it is left out, and again afterwards; a
// system that can't do so says that, and that the window is in them. Wine is one of these.
func TestLeaveOut(t *testing.T) {
	gdi32 := windows.NewLazySystemDLL("gdi32.dll")
	const popupVisible, topmost, whiteRect = 0x90000000, 8, 6 // WS_POPUP and WS_VISIBLE, WS_EX_TOPMOST, SS_WHITERECT
	class, _ := windows.UTF16PtrFromString("STATIC")
	h, _, err := user32.NewProc("CreateWindowExW").Call(topmost, uintptr(unsafe.Pointer(class)), 0, popupVisible|whiteRect, 40, 40, 200, 200, 0, 0, 0, 0)
	if h == 0 {
		t.Skip("no window can be opened:", err)
	}
	defer user32.NewProc("DestroyWindow").Call(h)
	screen, _, _ := user32.NewProc("GetDC").Call(0)
	defer user32.NewProc("ReleaseDC").Call(0, screen)
	seen := func(want bool) {
		t.Helper()
		for end := time.Now().Add(10 * time.Second); ; time.Sleep(10 * time.Millisecond) {
			user32.NewProc("RedrawWindow").Call(h, 0, 0, 0x101) // RDW_INVALIDATE and RDW_UPDATENOW
			pixel, _, _ := gdi32.NewProc("GetPixel").Call(screen, 140, 140)
			if pixel == 0xffffff == want {
				return
			}
			if time.Now().After(end) {
				t.Fatalf("the screen shows %06x; the window in it: want %v", pixel, want)
			}
		}
	}
	seen(true)
	if !CanLeaveOut() {
		if err := LeaveOut(h, true); !errors.Is(err, ErrUnsupported) || LeftOut(h) {
			t.Errorf("too old a system: %v, left out %v", err, LeftOut(h))
		}
		return
	}
	for _, on := range []bool{true, false} {
		if err := LeaveOut(h, on); err != nil || LeftOut(h) != on {
			t.Fatalf("left out %v: %v, %v", on, LeftOut(h), err)
		}
		seen(!on)
	}
}
