package native

import (
	"errors"
	"fmt"
	"image"
	"runtime"
	"sync"
	"unsafe"

	"golang.org/x/sys/windows"
)

var (
	registerHotKey    = user32.NewProc("RegisterHotKey")
	unregisterHotKey  = user32.NewProc("UnregisterHotKey")
	getMessage        = user32.NewProc("GetMessageW")
	peekMessage       = user32.NewProc("PeekMessageW")
	postThreadMessage = user32.NewProc("PostThreadMessageW")
	getCursorPos      = user32.NewProc("GetCursorPos")
	windowFromPoint   = user32.NewProc("WindowFromPoint")
	getAncestor       = user32.NewProc("GetAncestor")
)

// Constants of winuser.h and winerror.h.
const (
	modAlt      = 0x1
	modControl  = 0x2
	modShift    = 0x4
	modWin      = 0x8
	modNoRepeat = 0x4000
	wmHotKey    = 0x312
	wmApp       = 0x8000
	gaRoot      = 2

	errHotKeyRegistered windows.Errno = 1409
)

// message is MSG of winuser.h.
type message struct {
	window  uintptr
	message uint32
	wParam  uintptr
	lParam  uintptr
	time    uint32
	x, y    int32
	private uint32
}

// keyThread is the thread that holds keys: the system sends their presses to the thread that
// asked for them, and takes all back when that ends.
type keyThread struct {
	id      uint32
	chords  []Chord
	hearer  KeyHearer
	answers chan []error
}

// holding is the thread that holds keys now; nil for none.
var holding struct {
	sync.Mutex
	thread *keyThread
}

// HoldKeys has these chords heard wherever the keyboard's focus is, until the next call or the
// program's end; without any, none is held. each says of every chord why it is not held, nil
// where it is.
func HoldKeys(chords []Chord, hearer KeyHearer) (each []error, failed error) {
	holding.Lock()
	defer holding.Unlock()
	if old := holding.thread; old != nil {
		holding.thread = nil
		if ok, _, err := postThreadMessage.Call(uintptr(old.id), wmApp, 0, 0); ok == 0 {
			return nil, fmt.Errorf("let go of keys: %w", err)
		}
		<-old.answers // closed once all are let go
	}
	if len(chords) == 0 {
		return nil, nil
	}
	t := &keyThread{chords: chords, hearer: hearer, answers: make(chan []error)}
	go t.run()
	holding.thread = t
	return <-t.answers, nil
}

// run holds the keys and hears of them, until it is told to end.
func (t *keyThread) run() {
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	defer close(t.answers)
	t.id = windows.GetCurrentThreadId()
	var m message
	_, _, _ = peekMessage.Call(uintptr(unsafe.Pointer(&m)), 0, wmApp, wmApp, 0) // makes the thread's queue
	each := make([]error, len(t.chords))
	for i, c := range t.chords {
		each[i] = register(i, c)
	}
	defer t.letGo(each)
	t.answers <- each
	for {
		got, _, _ := getMessage.Call(uintptr(unsafe.Pointer(&m)), 0, 0, 0)
		switch {
		case int32(got) <= 0 || m.message == wmApp:
			return
		case m.message == wmHotKey && m.wParam < uintptr(len(t.chords)):
			var at struct{ x, y int32 }
			if ok, _, _ := getCursorPos.Call(uintptr(unsafe.Pointer(&at))); ok != 0 {
				t.hearer.Pressed(int(m.wParam), image.Pt(int(at.x), int(at.y)))
			}
		}
	}
}

// letGo gives the keys back that are held.
func (t *keyThread) letGo(each []error) {
	for i, err := range each {
		if err == nil {
			_, _, _ = unregisterHotKey.Call(0, uintptr(i))
		}
	}
}

// register holds a chord under a number, for the thread of now.
func register(i int, c Chord) error {
	key, ok := keyNamed(c.Key)
	if !ok {
		return ErrNoKey
	}
	mods := uintptr(modNoRepeat)
	for _, h := range []struct {
		on   bool
		bits uintptr
	}{{c.Ctrl, modControl}, {c.Alt, modAlt}, {c.Shift, modShift}, {c.Super, modWin}} {
		if h.on {
			mods |= h.bits
		}
	}
	ok2, _, err := registerHotKey.Call(0, uintptr(i), mods, uintptr(key.code))
	switch {
	case ok2 != 0:
		return nil
	case errors.Is(err, errHotKeyRegistered):
		return ErrKeyHeld
	}
	return fmt.Errorf("hold %v: %w", c, err)
}

// Topmost reports whether our own window, or its frame, is what shows at a place of the desktop.
func Topmost(handle uintptr, at image.Point) (bool, error) {
	if handle == 0 {
		return false, ErrNoWindow
	}
	point := uintptr(uint32(int32(at.X))) | uintptr(uint32(int32(at.Y)))<<32 // POINT by value, on 64 bits
	there, _, _ := windowFromPoint.Call(point)
	top, _, _ := getAncestor.Call(there, gaRoot)
	return top == handle, nil
}
