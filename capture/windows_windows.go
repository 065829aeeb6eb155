package capture

import (
	"context"
	"fmt"
	"image"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"unsafe"

	"golang.org/x/sys/windows"
)

// Calls and constants of winuser.h and dwmapi.h.
var (
	user32         = windows.NewLazySystemDLL("user32.dll")
	getWindowText  = user32.NewProc("GetWindowTextW")
	getWindowLong  = user32.NewProc("GetWindowLongW")
	getOwner       = user32.NewProc("GetWindow")
	getWindowRect  = user32.NewProc("GetWindowRect")
	getClientRect  = user32.NewProc("GetClientRect")
	clientToScreen = user32.NewProc("ClientToScreen")
	isIconic       = user32.NewProc("IsIconic")
	printWindow    = user32.NewProc("PrintWindow")
	isHung         = user32.NewProc("IsHungAppWindow")
)

const (
	gwOwner         = 4
	gwlExStyle      = ^uintptr(19) // -20
	exTransparent   = 0x20         // clicks go through it
	exToolWindow    = 0x80
	exAppWindow     = 0x40000
	mostClassLetter = 256 // of a window's class (WNDCLASSW)
)

// windowsBackend reads the screen through a picture that is kept, and windows one by one by asking their
// programs to paint them. Tried under no Windows as yet.
type windowsBackend struct{ portableBackend }

// Open implements Backend.
func (windowsBackend) Open(ctx context.Context, region image.Rectangle) (Stream, error) {
	return openGDI(ctx, region)
}

// following returns the backend with windows to follow.
func following(b Backend) Backend {
	if p, ok := b.(portableBackend); ok {
		return windowsBackend{p}
	}
	return b
}

// collect is the system's way to call us with each window. One serves the whole program: what is
// made of it is never given back.
var collect = sync.OnceValue(func() uintptr {
	return windows.NewCallback(func(w windows.HWND, _ uintptr) uintptr {
		collected = append(collected, w)
		return 1 // go on
	})
})

// collected are the windows of the call that runs; onPortable runs one at a time. A place on the
// caller's stack would not do: that may be moved while the system calls us.
var collected []windows.HWND

// winWindow is what is known of a window of Windows.
type winWindow struct {
	Window
	frame  image.Rectangle
	listed bool // a painter would call it a window
	veil   bool // clicks go through it
}

// winWindows returns all windows that show, the topmost first, but for this process's and own. It
// runs within onPortable.
func winWindows(own []uint64) (all []winWindow, err error) {
	collected = collected[:0]
	if err := windows.EnumWindows(collect(), nil); err != nil {
		return nil, fmt.Errorf("windows of the desktop: %w", err)
	}
	for _, h := range collected {
		var pid uint32
		if _, err := windows.GetWindowThreadProcessId(h, &pid); err != nil || pid == windows.GetCurrentProcessId() || slices.Contains(own, uint64(h)) {
			continue
		}
		if w, ok := describeWin(h, pid); ok {
			all = append(all, w)
		}
	}
	return all, nil
}

// describeWin returns what is known of a window; false for one that shows nothing to anybody.
func describeWin(h windows.HWND, pid uint32) (w winWindow, ok bool) {
	if !windows.IsWindowVisible(h) {
		return w, false
	}
	var cloaked uint32 // on another desktop, or put to sleep by the system
	if err := windows.DwmGetWindowAttribute(h, windows.DWMWA_CLOAKED, unsafe.Pointer(&cloaked), uint32(unsafe.Sizeof(cloaked))); err == nil && cloaked != 0 {
		return w, false
	}
	w.ID, w.Class = uint64(h), programOf(h, pid)
	var title [mostTitle + 1]uint16
	getWindowText.Call(uintptr(h), uintptr(unsafe.Pointer(&title[0])), uintptr(len(title)))
	w.Title = oneLine(windows.UTF16ToString(title[:]))
	iconic, _, _ := isIconic.Call(uintptr(h))
	w.Minimised = iconic != 0
	var frame windows.Rect
	getWindowRect.Call(uintptr(h), uintptr(unsafe.Pointer(&frame)))
	w.frame = image.Rect(int(frame.Left), int(frame.Top), int(frame.Right), int(frame.Bottom))
	w.Rect = insideOf(h)
	style, _, _ := getWindowLong.Call(uintptr(h), gwlExStyle)
	owner, _, _ := getOwner.Call(uintptr(h), gwOwner)
	w.veil = style&exTransparent != 0
	w.listed = w.Title != "" && style&exToolWindow == 0 && (owner == 0 || style&exAppWindow != 0)
	return w, true
}

// insideOf returns where a window's inside is.
func insideOf(h windows.HWND) image.Rectangle {
	var r windows.Rect
	var corner struct{ x, y int32 }
	if ok, _, _ := getClientRect.Call(uintptr(h), uintptr(unsafe.Pointer(&r))); ok == 0 {
		return image.Rectangle{}
	}
	clientToScreen.Call(uintptr(h), uintptr(unsafe.Pointer(&corner)))
	return image.Rect(0, 0, int(r.Right), int(r.Bottom)).Add(image.Pt(int(corner.x), int(corner.y)))
}

// programOf returns the name of a window's program: its file's, or where that is not told the name
// of the window's class.
func programOf(h windows.HWND, pid uint32) string {
	if p, err := windows.OpenProcess(windows.PROCESS_QUERY_LIMITED_INFORMATION, false, pid); err == nil {
		defer windows.CloseHandle(p)
		var path [windows.MAX_PATH]uint16
		n := uint32(len(path))
		if windows.QueryFullProcessImageName(p, 0, &path[0], &n) == nil {
			name := filepath.Base(windows.UTF16ToString(path[:n]))
			return oneLine(strings.TrimSuffix(name, filepath.Ext(name)))
		}
	}
	var class [mostClassLetter + 1]uint16
	_, _ = windows.GetClassName(h, &class[0], int32(len(class))) // none is a name too
	return oneLine(windows.UTF16ToString(class[:]))
}

// listedWindows returns those that can be followed.
func listedWindows(own []uint64) ([]Window, error) {
	all, err := winWindows(own)
	var list []Window
	for _, w := range all {
		if w.listed {
			list = append(list, w.Window)
		}
	}
	return list, err
}

// Windows implements Follower.
func (windowsBackend) Windows(ctx context.Context, own ...uint64) ([]Window, error) {
	return onPortable(ctx, func() ([]Window, error) { return listedWindows(own) })
}

// WindowAt implements Follower.
func (windowsBackend) WindowAt(ctx context.Context, p image.Point, own ...uint64) (Window, bool, error) {
	found, err := onPortable(ctx, func() (winWindow, error) {
		all, err := winWindows(own)
		for _, w := range all {
			if p.In(w.frame) && !w.Minimised && !w.veil {
				return w, err
			}
		}
		return winWindow{}, err
	})
	if err != nil || !found.listed {
		return Window{}, false, err
	}
	return found.Window, true, nil
}

// Follow implements Follower.
func (windowsBackend) Follow(_ context.Context, w Window, part image.Rectangle, own ...uint64) (WindowStream, error) {
	if part.Empty() && part != (image.Rectangle{}) {
		return nil, fmt.Errorf("follow window %q: part %v: %w", w.Title, part, ErrEmpty)
	}
	s := &winStream{part: part, own: own}
	s.seen.Store(&w)
	return s, nil
}
