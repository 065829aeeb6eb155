package native

import (
	"fmt"
	"runtime"
	"time"
	"unsafe"

	"golang.org/x/sys/windows"
)

var (
	kernel32        = windows.NewLazySystemDLL("kernel32.dll")
	globalAlloc     = kernel32.NewProc("GlobalAlloc")
	globalFree      = kernel32.NewProc("GlobalFree")
	globalLock      = kernel32.NewProc("GlobalLock")
	globalUnlock    = kernel32.NewProc("GlobalUnlock")
	moveMemory      = kernel32.NewProc("RtlMoveMemory")
	createWindow    = user32.NewProc("CreateWindowExW")
	destroyWindow   = user32.NewProc("DestroyWindow")
	openClipboard   = user32.NewProc("OpenClipboard")
	closeClipboard  = user32.NewProc("CloseClipboard")
	emptyClipboard  = user32.NewProc("EmptyClipboard")
	setClipboard    = user32.NewProc("SetClipboardData")
	clipboardFormat = user32.NewProc("RegisterClipboardFormatW")
)

// Constants of winuser.h and winbase.h.
const (
	hwndMessage  = ^uintptr(2) // -3
	cfDIB        = 8
	gmemMoveable = 0x2
)

// Another program rarely has the clipboard for long. Common practice, no source.
const (
	clipboardTries = 20
	clipboardPause = 25 * time.Millisecond
)

// CopyPicture puts a picture, the bytes of a PNG file, on the clipboard, as it is and as a
// bitmap for programs that know no other. The system keeps it. Errors wrap ErrClipboardBusy,
// or say what the system refused.
func CopyPicture(png []byte) error {
	bitmap, err := dib(png)
	if err == nil {
		err = copyFormats(png, bitmap)
	}
	if err != nil {
		return fmt.Errorf("copy a picture: %w", err)
	}
	return nil
}

// copyFormats empties the clipboard and fills it. A window must own it meanwhile, and both
// belong to one thread.
func copyFormats(png, bitmap []byte) error {
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	class, err := windows.UTF16PtrFromString("STATIC")
	if err != nil {
		return err
	}
	name, err := windows.UTF16PtrFromString("PNG")
	if err != nil {
		return err
	}
	owner, _, err := createWindow.Call(0, uintptr(unsafe.Pointer(class)), 0, 0, 0, 0, 0, 0, hwndMessage, 0, 0, 0)
	if owner == 0 {
		return fmt.Errorf("window for the clipboard: %w", err)
	}
	defer destroyWindow.Call(owner)
	if err := openFor(owner); err != nil {
		return err
	}
	defer closeClipboard.Call()
	if ok, _, err := emptyClipboard.Call(); ok == 0 {
		return fmt.Errorf("empty the clipboard: %w", err)
	}
	format, _, err := clipboardFormat.Call(uintptr(unsafe.Pointer(name)))
	if format == 0 {
		return fmt.Errorf("name of the picture's format: %w", err)
	}
	if err := fill(format, png); err != nil {
		return err
	}
	return fill(cfDIB, bitmap)
}

// openFor opens the clipboard for a window; while another program has it open, it waits a little.
func openFor(owner uintptr) error {
	for try := 1; ; try++ {
		ok, _, err := openClipboard.Call(owner)
		if ok != 0 {
			return nil
		}
		if try == clipboardTries {
			return fmt.Errorf("open the clipboard: %w: %w", ErrClipboardBusy, err)
		}
		time.Sleep(clipboardPause)
	}
}

// fill puts b, which is not empty, on the open clipboard. The memory is the system's once it
// has taken it.
func fill(format uintptr, b []byte) error {
	memory, _, err := globalAlloc.Call(gmemMoveable, uintptr(len(b)))
	if memory == 0 {
		return fmt.Errorf("memory for the clipboard: %w", err)
	}
	to, _, err := globalLock.Call(memory)
	if to == 0 {
		globalFree.Call(memory)
		return fmt.Errorf("memory for the clipboard: %w", err)
	}
	moveMemory.Call(to, uintptr(unsafe.Pointer(&b[0])), uintptr(len(b)))
	globalUnlock.Call(memory)
	if ok, _, err := setClipboard.Call(format, memory); ok == 0 {
		globalFree.Call(memory)
		return fmt.Errorf("fill the clipboard: %w", err)
	}
	return nil
}
