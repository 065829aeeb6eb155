package capture

import (
	"errors"
	"image"
	"runtime"
	"testing"
	"time"
	"unsafe"

	"golang.org/x/sys/windows"
)

// Calls of winuser.h and wingdi.h that only tests make.
var (
	createWindow  = user32.NewProc("CreateWindowExW")
	destroyWindow = user32.NewProc("DestroyWindow")
	fillRect      = user32.NewProc("FillRect")
	peekMessage   = user32.NewProc("PeekMessageW")
	dispatch      = user32.NewProc("DispatchMessageW")
	guiResources  = user32.NewProc("GetGuiResources")
	solidBrush    = gdi32.NewProc("CreateSolidBrush")
)

// paper is a window above all others, in which a test paints.
type paper struct {
	t *testing.T
	h uintptr
}

func newPaper(t *testing.T, box image.Rectangle) paper {
	t.Helper()
	const popupVisible, topmost = 0x90000000, 8 // WS_POPUP and WS_VISIBLE; WS_EX_TOPMOST
	class, _ := windows.UTF16PtrFromString("STATIC")
	h, _, err := createWindow.Call(topmost, uintptr(unsafe.Pointer(class)), 0, popupVisible, uintptr(box.Min.X), uintptr(box.Min.Y), uintptr(box.Dx()), uintptr(box.Dy()), 0, 0, 0, 0)
	if h == 0 {
		t.Skip("no window can be opened:", err)
	}
	t.Cleanup(func() { destroyWindow.Call(h) })
	return paper{t, h}
}

// fill paints rows of the paper, each 400 pixels long, in a colour of which wingdi.h has blue first.
func (p paper) fill(from, to int32, bgr uintptr) {
	p.t.Helper()
	dc, _, _ := getDC.Call(p.h)
	brush, _, _ := solidBrush.Call(bgr)
	r := windows.Rect{Top: from, Right: 400, Bottom: to}
	if ok, _, err := fillRect.Call(dc, uintptr(unsafe.Pointer(&r)), brush); ok == 0 {
		p.t.Fatal(err)
	}
	gdiFlush.Call()
	deleteObject.Call(brush)
	releaseDC.Call(p.h, dc)
}

// shown reads until there is something new: a system may show what was painted some time later, when its
// program listens.
func (p paper) shown(s Stream, f *Frame) {
	p.t.Helper()
	for end := time.Now().Add(20 * time.Second); ; time.Sleep(10 * time.Millisecond) {
		var message [48]byte // MSG of 64-bit systems
		for {
			if more, _, _ := peekMessage.Call(uintptr(unsafe.Pointer(&message)), 0, 0, 0, 1); more == 0 {
				break
			}
			dispatch.Call(uintptr(unsafe.Pointer(&message)))
		}
		changed, err := s.Grab(p.t.Context(), f)
		if changed {
			return
		}
		if err != nil || time.Now().After(end) {
			p.t.Fatal("nothing new is shown: ", err)
		}
	}
}

// only fails unless all of a frame's rows from one to another are of a colour.
func (f Frame) only(t *testing.T, from, to int, b, g, r byte) {
	t.Helper()
	for y := from; y < to; y++ {
		for x := range f.Size.X {
			if p := [3]byte(f.Pix[y*f.Stride+4*x:]); p != [3]byte{b, g, r} {
				t.Fatalf("%d, %d is % x", x, y, p)
			}
		}
	}
}

// What a region shows is read with its own numbers; nothing new is said to be nothing new, and what is
// new lies in the rows that are named. Nothing that was taken from the system is lost, however often
// the region is read, also where the monitors change.
func TestGDIReadsTheScreen(t *testing.T) {
	runtime.LockOSThread() // whose the window is
	defer runtime.UnlockOSThread()
	p := newPaper(t, image.Rect(100, 100, 500, 400))
	s, err := openGDI(t.Context(), image.Rect(120, 120, 420, 320))
	if err != nil {
		t.Fatal(err)
	}
	stream := s.(*gdiStream)
	var f, again Frame
	if changed, err := s.Grab(t.Context(), &f); err != nil || !changed || f.Size != image.Pt(300, 200) || f.Origin != image.Pt(120, 120) || !f.Changed.Empty() {
		t.Fatalf("%v, %v, %v at %v, %v", changed, err, f.Size, f.Origin, f.Changed)
	}
	for f.Pix[0] != 0x99 { // the window may be on its way
		p.fill(0, 300, 0x996633)
		p.shown(s, &f)
	}
	f.only(t, 0, 200, 0x99, 0x66, 0x33)
	if changed, err := s.Grab(t.Context(), &again); err != nil || changed {
		t.Errorf("unchanged: %v, %v", changed, err)
	}
	p.fill(70, 100, 0x0000ff) // rows 50 to 80 of the region
	if p.shown(s, &again); again.Changed != image.Rect(0, 50, 300, 80) {
		t.Errorf("a stroke: %v", again.Changed)
	}
	again.only(t, 50, 80, 0, 0, 0xff)
	f.only(t, 0, 200, 0x99, 0x66, 0x33) // the one before is whole

	held := func() uintptr {
		n, _, _ := guiResources.Call(uintptr(windows.CurrentProcess()), 0)
		return n
	}
	before := held()
	for i := range 500 {
		if i%50 == 0 {
			stream.jobs <- func() { stream.plane.desktop = image.Rectangle{} } // as if a monitor had come or gone
		}
		if changed, err := s.Grab(t.Context(), &f); err != nil || changed {
			t.Fatalf("%d: %v, %v", i, changed, err)
		}
	}
	if after := held(); after > before {
		t.Errorf("%d handles became %d", before, after)
	}
	if err := errors.Join(s.Close(), s.Close()); err != nil {
		t.Error(err)
	}
	if _, err := s.Grab(t.Context(), &f); !errors.Is(err, ErrClosed) {
		t.Error(err)
	}
}

// A region that is partly on the desktop is read where it is; one that is not is refused.
func TestGDIRegions(t *testing.T) {
	all := virtualScreen()
	for region, want := range map[image.Rectangle]error{
		image.Rect(all.Max.X, 0, all.Max.X+9, 9): ErrOutside, image.Rect(5, 5, 5, 9): ErrEmpty,
	} {
		if _, err := openGDI(t.Context(), region); !errors.Is(err, want) {
			t.Errorf("%v: %v", region, err)
		}
	}
	for region, size := range map[image.Rectangle]image.Point{
		image.Rect(all.Min.X-50, all.Min.Y-20, all.Min.X+30, all.Min.Y+10): {30, 10}, {}: all.Size(),
	} {
		s, err := openGDI(t.Context(), region)
		if err != nil {
			t.Fatal(err)
		}
		var f Frame
		if _, err := s.Grab(t.Context(), &f); err != nil || f.Size != size {
			t.Errorf("%v: %v, %v", region, f.Size, err)
		}
		_ = s.Close()
	}
}

func BenchmarkGDIRead(b *testing.B) { // 1280x720, as the portable module's beside it
	s, err := openGDI(b.Context(), image.Rect(0, 0, 1280, 720))
	if err != nil {
		b.Skip(err)
	}
	defer s.Close()
	var f Frame
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Grab(b.Context(), &f); err != nil {
			b.Fatal(err)
		}
	}
}
