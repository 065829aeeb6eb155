package monitors

import (
	"context"
	"fmt"
	"image"
	"strings"
	"sync"
	"unsafe"

	"golang.org/x/sys/windows"

	"app.tonedesk/capture/plainfile"
)

var (
	user32              = windows.NewLazySystemDLL("user32.dll")
	gdi32               = windows.NewLazySystemDLL("gdi32.dll")
	enumDisplayMonitors = user32.NewProc("EnumDisplayMonitors")
	getMonitorInfo      = user32.NewProc("GetMonitorInfoW")
	createDC            = gdi32.NewProc("CreateDCW")
	deleteDC            = gdi32.NewProc("DeleteDC")
	getICMProfile       = gdi32.NewProc("GetICMProfileW")
)

// monitorInfo is MONITORINFOEXW of winuser.h.
type monitorInfo struct {
	size          uint32
	monitor, work windows.Rect
	flags         uint32
	device        [32]uint16
}

// found are the monitors of one look, and looking is held while one is taken: the system calls back on
// the thread that asks. A callback is made once, since it stays for ever.
var (
	looking sync.Mutex
	found   []Monitor
	add     = sync.OnceValue(func() uintptr {
		return windows.NewCallback(func(handle, _, _, _ uintptr) uintptr {
			info := monitorInfo{size: uint32(unsafe.Sizeof(monitorInfo{}))}
			if ok, _, _ := getMonitorInfo.Call(handle, uintptr(unsafe.Pointer(&info))); ok != 0 {
				r := info.monitor
				found = append(found, Monitor{
					Rect: image.Rect(int(r.Left), int(r.Top), int(r.Right), int(r.Bottom)),
					key:  windows.UTF16ToString(info.device[:]),
				})
			}
			return 1 // go on
		})
	})
)

// List returns the monitors, by the names of the system's devices.
func List(context.Context) ([]Monitor, error) {
	looking.Lock()
	defer looking.Unlock()
	found = nil
	if ok, _, err := enumDisplayMonitors.Call(0, 0, add(), 0); ok == 0 {
		return nil, fmt.Errorf("monitors: %w", err)
	}
	names := make([]string, len(found))
	for i, m := range found {
		names[i] = trimmed(strings.TrimPrefix(m.key, `\\.\`))
	}
	for i, name := range apart(names, names) {
		found[i].Name = name
	}
	return found, nil
}

// Profile returns the bytes of the profile that the system keeps for a monitor; they may be damaged.
// The error wraps ErrNone where there is none, or is one of plainfile.
func Profile(_ context.Context, m Monitor) ([]byte, error) {
	device, err := windows.UTF16PtrFromString(m.key)
	if err != nil {
		return nil, fmt.Errorf("profile of %s: %w", m.Name, err)
	}
	dc, _, err := createDC.Call(uintptr(unsafe.Pointer(device)), uintptr(unsafe.Pointer(device)), 0, 0)
	if dc == 0 {
		return nil, fmt.Errorf("profile of %s: %w", m.Name, err)
	}
	defer deleteDC.Call(dc)
	path := make([]uint16, windows.MAX_LONG_PATH)
	letters := uint32(len(path))
	if ok, _, _ := getICMProfile.Call(dc, uintptr(unsafe.Pointer(&letters)), uintptr(unsafe.Pointer(&path[0]))); ok == 0 {
		return nil, fmt.Errorf("profile of %s: %w", m.Name, ErrNone)
	}
	data, err := plainfile.Read(windows.UTF16ToString(path), MostProfile)
	if err != nil {
		return nil, fmt.Errorf("profile of %s: %w", m.Name, err)
	}
	return data, nil
}
