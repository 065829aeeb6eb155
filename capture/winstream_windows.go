package capture

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"sync/atomic"
	"time"
	"unsafe"

	"golang.org/x/sys/windows"
)

// Calls and constants of wingdi.h and winuser.h.
var (
	gdi32            = windows.NewLazySystemDLL("gdi32.dll")
	createDC         = gdi32.NewProc("CreateCompatibleDC")
	deleteDC         = gdi32.NewProc("DeleteDC")
	createDIBSection = gdi32.NewProc("CreateDIBSection")
	selectObject     = gdi32.NewProc("SelectObject")
	deleteObject     = gdi32.NewProc("DeleteObject")
	gdiFlush         = gdi32.NewProc("GdiFlush")
)

const (
	pwClientOnly        = 1
	pwRenderFullContent = 2 // since Windows 8.1: also what a graphics card paints
)

// bitmapHeader is a BITMAPINFOHEADER; 32 bits a pixel need no colours after it.
type bitmapHeader struct {
	size           uint32
	width, height  int32 // height below 0: the first row is the topmost
	planes, bits   uint16
	compression    uint32
	bytes          uint32
	xMetre, yMetre int32
	used, needed   uint32
}

// winStream reads a window by having its program paint it into a picture of ours (PrintWindow), also
// while it is covered. The system doesn't tell of changes, so it is asked again and again.
type winStream struct {
	part   image.Rectangle
	own    []uint64
	seen   atomic.Pointer[Window]
	last   []byte
	size   image.Point
	closed bool
}

// Window implements WindowStream.
func (s *winStream) Window() Window { return *s.seen.Load() }

// Changes implements Notifier: nil, since nothing is told.
func (s *winStream) Changes() <-chan struct{} { return nil }

// Close implements Stream.
func (s *winStream) Close() error {
	s.closed, s.last = true, nil
	return nil
}

// printed is what was read of a window.
type printed struct {
	window Window
	pix    []byte
	box    image.Rectangle // from the inside's top left
}

// Grab implements Stream. Each picture that is new has memory of its own.
func (s *winStream) Grab(ctx context.Context, f *Frame) (changed bool, err error) {
	if s.closed {
		return false, ErrClosed
	}
	wanted, part, own := *s.seen.Load(), s.part, s.own // the call may outlive ctx
	p, err := onPortable(ctx, func() (printed, error) { return printNow(wanted, part, own) })
	if p.window.ID != 0 {
		s.seen.Store(&p.window)
	}
	if err != nil {
		return false, fmt.Errorf("read window %q: %w", wanted.Title, err)
	}
	if s.size == p.box.Size() && bytes.Equal(s.last, p.pix) {
		return false, nil
	}
	s.last, s.size = p.pix, p.box.Size()
	*f = Frame{Pix: p.pix, Stride: 4 * s.size.X, Size: s.size, Layout: BGRX, Origin: p.window.Rect.Min.Add(p.box.Min), At: time.Now(), Lasts: true}
	return true, nil
}

// printNow finds the window and has it painted.
func printNow(wanted Window, part image.Rectangle, own []uint64) (p printed, err error) {
	list, err := listedWindows(own)
	if err != nil {
		return p, err
	}
	found, ok := sought(wanted, list)
	if !ok {
		wanted.ID = 0 // another may get its number
		return printed{window: wanted}, ErrNoWindow
	}
	p.window = found
	if found.Minimised {
		return p, ErrMinimised
	}
	if hung, _, _ := isHung.Call(uintptr(found.ID)); hung != 0 { // it would hold up whoever asks it to paint
		return p, ErrNotAnswering
	}
	inside := image.Rectangle{Max: found.Rect.Size()}
	p.box = inside
	if !part.Empty() {
		p.box = part.Intersect(inside)
	}
	if p.box.Empty() {
		return p, fmt.Errorf("part %v of a window of %v: %w", part, inside.Size(), ErrPart)
	}
	p.pix, err = printInto(windows.HWND(found.ID), inside.Size(), p.box)
	return p, err
}

// printInto has a window of a size painted, and returns a box of it. All that it takes from the
// system it gives back: what it made belongs to the thread of now. One thread at a time.
func printInto(h windows.HWND, size image.Point, box image.Rectangle) ([]byte, error) {
	dc, _, err := createDC.Call(0)
	if dc == 0 {
		return nil, fmt.Errorf("place to paint on: %w", err)
	}
	defer deleteDC.Call(dc)
	head := bitmapHeader{width: int32(size.X), height: int32(-size.Y), planes: 1, bits: 32}
	head.size = uint32(unsafe.Sizeof(head))
	var memory unsafe.Pointer
	bitmap, _, err := createDIBSection.Call(dc, uintptr(unsafe.Pointer(&head)), 0, uintptr(unsafe.Pointer(&memory)), 0, 0)
	if bitmap == 0 || memory == nil {
		return nil, fmt.Errorf("picture of %v: %w", size, err)
	}
	defer deleteObject.Call(bitmap)
	before, _, _ := selectObject.Call(dc, bitmap)
	defer selectObject.Call(dc, before) // a bitmap in use can't be deleted
	if ok, _, err := printWindow.Call(uintptr(h), dc, pwClientOnly|pwRenderFullContent); ok == 0 {
		return nil, fmt.Errorf("have the window painted: %w", err)
	}
	gdiFlush.Call()
	all := unsafe.Slice((*byte)(memory), 4*size.X*size.Y)
	pix := make([]byte, 0, 4*box.Dx()*box.Dy())
	for y := box.Min.Y; y < box.Max.Y; y++ {
		pix = append(pix, all[4*(y*size.X+box.Min.X):4*(y*size.X+box.Max.X)]...)
	}
	for i := 3; i < len(pix); i += 4 {
		pix[i] = 0xff // it means nothing, and must not count as a change
	}
	return pix, nil
}
