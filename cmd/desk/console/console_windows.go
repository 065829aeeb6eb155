package console

import (
	"io"
	"os"
	"syscall"
	"unsafe"
)

// Calls of the console, processenv.h and winuser.h. The package of the system's calls would be
// initialised too late (see package quiet).
var (
	kernel32      = syscall.NewLazyDLL("kernel32.dll")
	attachConsole = kernel32.NewProc("AttachConsole")
	freeConsole   = kernel32.NewProc("FreeConsole")
	setStdHandle  = kernel32.NewProc("SetStdHandle")
	messageBox    = syscall.NewLazyDLL("user32.dll").NewProc("MessageBoxW")
)

const (
	ofParent    = ^uintptr(0) // ATTACH_PARENT_PROCESS
	iconWarning = 0x30        // MB_ICONWARNING, with a button OK alone
)

// stream is one of the three, as the system numbers and names them.
type stream struct {
	std  int
	name string // of the console's own end
	to   **os.File
}

var streams = []stream{
	{syscall.STD_INPUT_HANDLE, "CONIN$", &os.Stdin},
	{syscall.STD_OUTPUT_HANDLE, "CONOUT$", &os.Stdout},
	{syscall.STD_ERROR_HANDLE, "CONOUT$", &os.Stderr},
}

// joined reports whether standard error is that of a terminal that was joined; heard whether it
// leads anywhere.
var joined, heard bool

func init() {
	heard = leads(syscall.Stderr)
	var missing []stream
	for _, s := range streams {
		if h, err := syscall.GetStdHandle(s.std); err != nil || !leads(h) {
			missing = append(missing, s)
		}
	}
	if len(missing) == 0 {
		return
	}
	if ok, _, _ := attachConsole.Call(ofParent); ok == 0 {
		return // started from no terminal, as by a click on its icon
	}
	for _, s := range missing {
		s.join()
	}
}

// leads reports whether a handle is that of a file, a pipe, a terminal or the null device. A
// program with a window is given none from a terminal.
func leads(h syscall.Handle) bool {
	if h == 0 || h == syscall.InvalidHandle {
		return false
	}
	kind, err := syscall.GetFileType(h)
	return err == nil && kind != syscall.FILE_TYPE_UNKNOWN
}

// join opens the console's end for a stream: for Go, and for the runtime, which asks the system.
func (s stream) join() {
	name, err := syscall.UTF16PtrFromString(s.name)
	if err != nil {
		return
	}
	h, err := syscall.CreateFile(name, syscall.GENERIC_READ|syscall.GENERIC_WRITE, syscall.FILE_SHARE_READ|syscall.FILE_SHARE_WRITE, nil, syscall.OPEN_EXISTING, 0, 0)
	if err != nil {
		return
	}
	setStdHandle.Call(uintptr(s.std), uintptr(h))
	*s.to = os.NewFile(uintptr(h), s.name)
	if s.std == syscall.STD_ERROR_HANDLE {
		joined, heard = true, true
	}
}

// Errors returns where sentences for the user go: standard error, or where that leads nowhere a
// box, which waits for the user.
func Errors() io.Writer {
	if heard {
		return os.Stderr
	}
	return box{}
}

// Heard reports whether somebody may read them: a box is read.
func Heard() bool { return true }

// Leave lets go of a terminal that was joined: what is typed there, such as Ctrl+C, and its end
// are then nothing to the program. It returns where sentences go from now on that went to to.
func Leave(to io.Writer) io.Writer {
	if !joined {
		return to
	}
	freeConsole.Call()
	return box{}
}

type box struct{}

func (box) Write(text []byte) (int, error) {
	words, err := syscall.UTF16PtrFromString(string(text))
	if err != nil {
		return 0, err
	}
	title, _ := syscall.UTF16PtrFromString("Tonedesk")
	messageBox.Call(0, uintptr(unsafe.Pointer(words)), uintptr(unsafe.Pointer(title)), iconWarning)
	return len(text), nil
}
