package capture

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"runtime"
	"time"
	"unsafe"
)

// Calls and constants of winuser.h and wingdi.h.
var (
	getDC            = user32.NewProc("GetDC")
	releaseDC        = user32.NewProc("ReleaseDC")
	systemMetrics    = user32.NewProc("GetSystemMetrics")
	openInputDesktop = user32.NewProc("OpenInputDesktop")
	closeDesktop     = user32.NewProc("CloseDesktop")
	bitBlt           = gdi32.NewProc("BitBlt")
)

const (
	virtualLeft, virtualTop, virtualWidth, virtualHeight = 76, 77, 78, 79 // SM_XVIRTUALSCREEN and the next

	srcCopy            = 0x00cc0020
	desktopReadObjects = 1
)

// virtualScreen returns the smallest rectangle around all monitors, in pixels of the monitors: the
// program's manifest says that it takes each as it is. The top left of the primary one is 0, 0.
func virtualScreen() image.Rectangle {
	metric := func(which uintptr) int {
		v, _, _ := systemMetrics.Call(which)
		return int(int32(v))
	}
	return image.Rect(0, 0, metric(virtualWidth), metric(virtualHeight)).Add(image.Pt(metric(virtualLeft), metric(virtualTop)))
}

// barred says why the screen that the user sees is not ours to read: it is locked, or asks whether a
// program may change the system.
func barred() error {
	desktop, _, err := openInputDesktop.Call(0, 0, desktopReadObjects)
	if desktop == 0 {
		return fmt.Errorf("%w: %w", ErrLocked, err)
	}
	closeDesktop.Call(desktop)
	return nil
}

// plane is a picture into which the system copies a part of the screen, and what that takes. It belongs
// to one thread.
type plane struct {
	desktop image.Rectangle // as it was when it was made
	region  image.Rectangle
	screen  uintptr // the way to the screen
	dc      uintptr // the way to the picture
	bitmap  uintptr
	before  uintptr // what the way led to first
	pix     []byte  // the picture's own memory, BGRX
}

// open makes the picture. Errors leave nothing behind.
func (p *plane) open(desktop, region image.Rectangle) (err error) {
	defer func() {
		if err != nil {
			p.close()
		}
	}()
	p.desktop, p.region = desktop, region
	if p.screen, _, err = getDC.Call(0); p.screen == 0 {
		return fmt.Errorf("way to the screen: %w", err)
	}
	if p.dc, _, err = createDC.Call(p.screen); p.dc == 0 {
		return fmt.Errorf("place to copy to: %w", err)
	}
	head := bitmapHeader{width: int32(region.Dx()), height: int32(-region.Dy()), planes: 1, bits: 32}
	head.size = uint32(unsafe.Sizeof(head))
	var memory unsafe.Pointer
	p.bitmap, _, err = createDIBSection.Call(p.dc, uintptr(unsafe.Pointer(&head)), 0, uintptr(unsafe.Pointer(&memory)), 0, 0)
	if p.bitmap == 0 || memory == nil {
		return fmt.Errorf("picture of %v: %w", region.Size(), err)
	}
	p.before, _, _ = selectObject.Call(p.dc, p.bitmap)
	p.pix = unsafe.Slice((*byte)(memory), 4*region.Dx()*region.Dy())
	return nil
}

// read copies the screen into the picture.
func (p *plane) read() error {
	// The source's corner is a C int in a register: below 0 left of the primary monitor.
	ok, _, err := bitBlt.Call(p.dc, 0, 0, uintptr(p.region.Dx()), uintptr(p.region.Dy()), p.screen, uintptr(p.region.Min.X), uintptr(p.region.Min.Y), srcCopy)
	if ok == 0 {
		return fmt.Errorf("copy %v of the screen: %w", p.region, err)
	}
	gdiFlush.Call()
	return nil
}

// close gives all back, in the opposite order. What was never taken is left out.
func (p *plane) close() {
	if p.before != 0 {
		selectObject.Call(p.dc, p.before) // a bitmap in use can't be deleted
	}
	if p.bitmap != 0 {
		deleteObject.Call(p.bitmap)
	}
	if p.dc != 0 {
		deleteDC.Call(p.dc)
	}
	if p.screen != 0 {
		releaseDC.Call(0, p.screen)
	}
	*p = plane{}
}

// gdiStream reads a region of the screen through a picture that is kept, on a thread of its own: the
// system wants what it gave used and given back on one. Two pictures take turns (Frame). The system
// does not tell of changes, so it is asked again and again.
type gdiStream struct {
	wanted image.Rectangle
	jobs   chan func() // for the thread; closed at the end

	// What follows is the running job's, or Grab's while none runs.
	plane plane
	front Frame  // handed out last: what came of a job that nobody waited for is not
	back  []byte // is filled next
	next  Frame  // what the last job found new
}

// openGDI begins to read a region.
func openGDI(ctx context.Context, region image.Rectangle) (Stream, error) {
	desktop := virtualScreen()
	if _, err := clip(region, desktop); err != nil {
		return nil, err
	}
	if region == (image.Rectangle{}) {
		region = image.Rect(-1<<30, -1<<30, 1<<30, 1<<30) // whatever the desktop grows to
	}
	s := &gdiStream{wanted: region, jobs: make(chan func())}
	go s.serve()
	return s, ctx.Err()
}

// serve is the thread.
func (s *gdiStream) serve() {
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	defer func() { s.plane.close() }()
	for job := range s.jobs {
		job()
	}
}

// Grab implements Stream. Errors wrap ErrGone, ErrLocked, ErrNotAnswering or ErrClosed.
func (s *gdiStream) Grab(ctx context.Context, f *Frame) (changed bool, err error) {
	if s.jobs == nil {
		return false, ErrClosed
	}
	done := make(chan error, 1)
	job := func() {
		defer func() {
			if p := recover(); p != nil {
				done <- fmt.Errorf("%w: %v", errPanic, p)
			}
		}()
		done <- s.look()
	}
	late := func() error { return fmt.Errorf("read screen: %w: %w", ErrNotAnswering, context.Cause(ctx)) }
	select {
	case s.jobs <- job: // a job that hangs lets no other begin
	case <-ctx.Done():
		return false, late()
	}
	select {
	case err = <-done:
	case <-ctx.Done():
		return false, late()
	}
	if err != nil {
		return false, fmt.Errorf("read screen: %w", err)
	}
	if s.next.Pix == nil {
		return false, nil
	}
	s.back, s.front = s.front.Pix, s.next
	*f = s.next
	return true, nil
}

// look reads the screen, and puts what is new into next. Where the monitors are, or which of them are
// on, may have changed: what was taken for them is given back then.
func (s *gdiStream) look() error {
	s.next = Frame{}
	desktop := virtualScreen()
	region := s.wanted.Intersect(desktop)
	if region.Empty() {
		s.plane.close()
		return fmt.Errorf("region %v on desktop %v: %w", s.wanted, desktop, ErrGone)
	}
	if err := barred(); err != nil {
		s.plane.close() // what belongs to the one desktop is no good on another
		return err
	}
	if s.plane.desktop != desktop || s.plane.region != region {
		s.plane.close()
		if err := s.plane.open(desktop, region); err != nil {
			return err
		}
	}
	if err := s.plane.read(); err != nil {
		s.plane.close()
		if locked := barred(); locked != nil { // since
			return locked
		}
		return err
	}
	s.take(region)
	return nil
}

// take copies what the picture holds, and says in which rows it differs from what was handed out last.
func (s *gdiStream) take(region image.Rectangle) {
	size, stride := region.Size(), 4*region.Dx()
	if len(s.back) != len(s.plane.pix) {
		s.back = make([]byte, len(s.plane.pix))
	}
	known := s.front.Pix != nil && s.front.Size == size && s.front.Origin == region.Min
	first, last := size.Y, -1
	for y := range size.Y {
		row := s.back[y*stride:][:stride]
		covering(row, s.plane.pix[y*stride:][:stride])
		if !known || !bytes.Equal(row, s.front.Pix[y*stride:][:stride]) {
			first, last = min(first, y), y
		}
	}
	if last < 0 {
		return
	}
	s.next = Frame{Pix: s.back, Stride: stride, Size: size, Layout: BGRX, Origin: region.Min, At: time.Now()}
	if known {
		s.next.Changed = image.Rect(0, first, size.X, last+1)
	}
}

// covering copies pixels and sets the byte of each that means nothing, since it must not count as a
// change.
func covering(to, from []byte) {
	a := unsafe.Slice((*uint32)(unsafe.Pointer(unsafe.SliceData(to))), len(to)/4)
	b := unsafe.Slice((*uint32)(unsafe.Pointer(unsafe.SliceData(from))), len(from)/4)
	for i, v := range b {
		a[i] = v | 0xff000000
	}
}

// Close implements Stream. It doesn't wait: a job that hangs keeps what it uses until it returns.
func (s *gdiStream) Close() error {
	if s.jobs != nil {
		close(s.jobs)
		s.jobs = nil
	}
	return nil
}
