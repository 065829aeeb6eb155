//go:build cgo

package pipewiretest

/*
#cgo LDFLAGS: -ldl
#include <stdlib.h>
#include "screen_linux.h"
*/
import "C"

import (
	"image"
	"sync"
	"unsafe"

	"app.tonedesk/capture/pipewire/pod"
)

// Pixels are how the four bytes of a pixel lie, by SPA's numbers.
type Pixels uint32

// The formats that a screen can have.
const (
	RGBx Pixels = 7
	BGRx Pixels = 8
	XRGB Pixels = 9 // one that is refused
	RGBA Pixels = 11
	BGRA Pixels = 12
)

// Shows is a picture of a screen: one colour all over.
type Shows struct {
	Pixel  [4]byte         // as they lie in memory
	Crop   image.Rectangle // what of it counts; empty: all, and nothing is told of it
	Failed bool            // it says of itself that it is none
}

// Kind is what the pictures of a screen are like.
type Kind struct {
	Pixels Pixels
	Size   image.Point
	Stride int // bytes; 0: without a gap
	Offset int // bytes before the first row
}

// Screen sends pictures when it is told to.
type Screen struct {
	server *Server
	kind   Kind
	screen *C.struct_screen
	kept   []unsafe.Pointer
	wishes unsafe.Pointer // where the wishes' places are
	Node   uint32

	settled uint32 // how often its format was
}

var load = sync.OnceValue(func() string { return C.GoString(C.screen_load()) })

// Screen makes a screen, which ends with the test.
func (s *Server) Screen(kind Kind) *Screen {
	s.t.Helper()
	if why := load(); why != "" {
		s.t.Fatal(why)
	}
	if kind.Stride == 0 {
		kind.Stride = 4 * kind.Size.X
	}
	screen := &Screen{server: s, kind: kind}
	screen.wishes = C.malloc(2 * C.size_t(unsafe.Sizeof(uintptr(0))))
	screen.kept = append(screen.kept, screen.wishes)
	screen.wish()
	screen.screen = C.screen_open(C.int(s.Socket()), screen.keep(screen.format(pod.ParamEnumFormat)), (*unsafe.Pointer)(screen.wishes), 2)
	if screen.screen == nil {
		s.t.Fatal("the screen can't be connected")
	}
	s.t.Cleanup(func() {
		screen.Close()
		for _, p := range screen.kept {
			C.free(p)
		}
	})
	s.WaitFor("the screen's node", func() bool {
		_, words := screen.state()
		if words != "" {
			s.t.Fatalf("the screen: %s", words)
		}
		return screen.Node != 1<<32-1 && screen.Node != 0
	})
	return screen
}

func (s *Screen) state() (state int, words string) {
	var number C.int32_t
	var settled C.uint32_t
	var text *C.char
	s.Node = uint32(C.screen_node(s.screen, &number, &settled, &text))
	s.settled = uint32(settled)
	return int(number), C.GoString(text)
}

func (s *Screen) keep(p pod.Pod) unsafe.Pointer {
	at := C.CBytes(p)
	s.kept = append(s.kept, at)
	return at
}

// format is what the screen offers: its one kind of pictures.
func (s *Screen) format(id uint32) pod.Pod {
	return pod.Object(pod.ObjectFormat, id,
		pod.With(pod.KeyMediaType, pod.ID(pod.MediaVideo)), pod.With(pod.KeyMediaSubtype, pod.ID(pod.MediaRaw)),
		pod.With(pod.KeyVideoFormat, pod.ID(uint32(s.kind.Pixels))),
		pod.With(pod.KeyVideoSize, pod.Choice(pod.ChoiceNone, pod.TypeRectangle, 8, uint32(s.kind.Size.X), uint32(s.kind.Size.Y))),
		pod.With(pod.KeyVideoRate, pod.Choice(pod.ChoiceNone, pod.TypeFraction, 8, 0, 1)))
}

// wish says what memory the pictures need.
func (s *Screen) wish() {
	room := uint32(s.kind.Offset + s.kind.Stride*s.kind.Size.Y)
	buffers := pod.Object(pod.ObjectBuffers, pod.ParamBuffers,
		pod.With(pod.KeyBuffers, pod.Choice(pod.ChoiceRange, pod.TypeInt, 4, 4, 2, 8)), pod.With(pod.KeyBlocks, pod.Int(1)),
		pod.With(pod.KeySize, pod.Int(room)), pod.With(pod.KeyStride, pod.Int(uint32(s.kind.Stride))),
		pod.With(pod.KeyDataType, pod.Choice(pod.ChoiceFlags, pod.TypeInt, 4, 1<<pod.DataMemFd)))
	crop := pod.Object(pod.ObjectMeta, pod.ParamMeta, pod.With(pod.KeyMetaType, pod.ID(pod.MetaCrop)), pod.With(pod.KeyMetaSize, pod.Int(pod.MetaCropSize)))
	at := unsafe.Slice((*unsafe.Pointer)(s.wishes), 2)
	at[0], at[1] = s.keep(buffers), s.keep(crop)
}

// Streams waits until somebody takes the screen's pictures.
func (s *Screen) Streams() {
	s.server.t.Helper()
	s.server.WaitFor("somebody who takes the screen's pictures", func() bool { state, _ := s.state(); return state == 3 })
}

// Rests waits until nobody takes them any more.
func (s *Screen) Rests() {
	s.server.t.Helper()
	s.server.WaitFor("nobody to take the screen's pictures", func() bool { state, _ := s.state(); return state != 3 })
}

// Show sends a picture.
func (s *Screen) Show(now Shows) {
	s.server.t.Helper()
	if !s.Shown(now) {
		s.server.t.Fatal("a picture can't be shown")
	}
}

// Shown sends a picture, and reports whether it could: while a size changes it can't.
func (s *Screen) Shown(now Shows) bool {
	shows := C.struct_shows{
		format: C.uint32_t(s.kind.Pixels), width: C.uint32_t(s.kind.Size.X), height: C.uint32_t(s.kind.Size.Y),
		stride: C.uint32_t(s.kind.Stride), offset: C.uint32_t(s.kind.Offset),
		crop:      [2]C.int32_t{C.int32_t(now.Crop.Min.X), C.int32_t(now.Crop.Min.Y)},
		crop_size: [2]C.uint32_t{C.uint32_t(now.Crop.Dx()), C.uint32_t(now.Crop.Dy())},
	}
	for i, b := range now.Pixel {
		shows.pixel[i] = C.uchar(b)
	}
	if now.Failed {
		shows.flags = 1
	}
	return C.screen_show(s.screen, &shows) >= 0
}

// Resize gives the screen, whose pictures somebody takes, another size.
func (s *Screen) Resize(size image.Point) {
	s.server.t.Helper()
	s.state()
	before := s.settled
	s.kind.Size, s.kind.Stride = size, 4*size.X
	s.wish()
	params := C.malloc(C.size_t(unsafe.Sizeof(uintptr(0))))
	s.kept = append(s.kept, params)
	*(*unsafe.Pointer)(params) = s.keep(s.format(pod.ParamEnumFormat))
	if r := C.screen_renew(s.screen, (*unsafe.Pointer)(params), 1); r < 0 {
		s.server.t.Fatalf("resize: %d", r)
	}
	s.server.WaitFor("the new size", func() bool { s.state(); return s.settled != before })
}

// Close takes the screen away.
func (s *Screen) Close() {
	if s.screen != nil {
		C.screen_close(s.screen)
		s.screen = nil
	}
}
