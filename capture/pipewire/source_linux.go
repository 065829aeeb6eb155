//go:build cgo

package pipewire

/*
#cgo LDFLAGS: -ldl
#include <stdlib.h>
#include "source_linux.h"
*/
import "C"

import (
	"errors"
	"fmt"
	"image"
	"os"
	"runtime"
	"runtime/debug"
	"sync"
	"syscall"
	"time"
	"unsafe"

	"golang.org/x/sys/unix"

	"app.tonedesk/capture/pipewire/pod"
)

// load loads the library, once in the process.
var load = sync.OnceValue(func() error {
	if why := C.pw_load(); why != nil {
		return fmt.Errorf("%w: %s", ErrLibrary, C.GoString(why))
	}
	return nil
})

// Loads reports why the library can't be had: the error wraps ErrLibrary.
func Loads() error { return load() }

// Source gives the pictures of one node of a server. Its methods may be called from any goroutine.
type Source struct {
	wake *os.File // written to by the library's thread
	done chan struct{}

	mu     sync.Mutex // guards what follows, and is held before the source's own lock
	source *C.struct_source
	memory []unsafe.Pointer // that the library's thread reads
	ran    bool             // pictures have come
	paused time.Time        // since when none come any more; zero: they do
}

// Open begins to take the pictures of a node from the server at the other end of a socket, which it
// takes over. tell is called whenever there may be something new, on a goroutine of the source's,
// until Close. Errors wrap ErrLibrary or ErrEnded.
func Open(socket int, node uint32, tell func()) (*Source, error) {
	if err := load(); err != nil {
		_ = unix.Close(socket)
		return nil, err
	}
	event, err := unix.Eventfd(0, unix.EFD_CLOEXEC|unix.EFD_NONBLOCK)
	if err != nil {
		_ = unix.Close(socket)
		return nil, fmt.Errorf("open a source of pictures: %w", err)
	}
	s := &Source{wake: os.NewFile(uintptr(event), "source of pictures"), done: make(chan struct{})}
	wishes := wished()
	list := C.malloc(C.size_t(len(wishes)) * C.size_t(unsafe.Sizeof(uintptr(0))))
	s.memory = []unsafe.Pointer{list}
	for i, w := range wishes {
		unsafe.Slice((*unsafe.Pointer)(list), len(wishes))[i] = s.keep(w)
	}
	s.source, err = C.pw_open(C.int(socket), C.uint32_t(node), C.int(event), s.keep(offered()), (*unsafe.Pointer)(list), C.uint32_t(len(wishes)))
	if s.source == nil {
		close(s.done)
		s.free()
		if errors.Is(err, syscall.ENOENT) { // the library without what it loads itself
			return nil, fmt.Errorf("%w: %w", ErrLibrary, err)
		}
		return nil, fmt.Errorf("%w: %w", ErrEnded, err)
	}
	go s.listen(tell)
	return s, nil
}

// keep copies a pod where C may keep it.
func (s *Source) keep(p pod.Pod) unsafe.Pointer {
	at := C.CBytes(p)
	s.memory = append(s.memory, at)
	return at
}

// listen hands on what the library's thread tells.
func (s *Source) listen(tell func()) {
	defer close(s.done)
	count := make([]byte, 8)
	for {
		if _, err := s.wake.Read(count); err != nil {
			return // closed
		}
		tell()
	}
}

// pausedMost is how long a source may pause, as it does for a moment where its size changes, until
// that is an end of it. Our choice.
const pausedMost = 2 * time.Second

// Read copies the part of the newest picture that is wanted, in its own pixels, into pix or new memory;
// the zero rectangle is all of it. A picture of no number is none: the newest is the one whose number is
// seen, or none has come yet. Errors wrap ErrEnded, ErrFormat or ErrPart.
func (s *Source) Read(part image.Rectangle, seen uint64, pix []byte) (p Picture, err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.source == nil {
		return p, fmt.Errorf("%w: closed", ErrEnded)
	}
	runtime.LockOSThread() // its lock is a thread's
	defer runtime.UnlockOSThread()
	C.pw_lock(s.source)
	defer C.pw_unlock(s.source)
	var now C.struct_look
	C.pw_look(s.source, &now)
	if err := s.judge(&now); err != nil {
		return p, err
	}
	if now.data == nil || uint64(now.number) == seen {
		return p, nil
	}
	f, err := parseFormat(C.GoBytes(unsafe.Pointer(now.format), C.int(now.format_size)))
	if err != nil {
		return p, fmt.Errorf("%w: %w", ErrFormat, err)
	}
	corner := image.Pt(int(now.crop[0]), int(now.crop[1]))
	r := raw{
		format: f, memory: unsafe.Slice((*byte)(now.data), int(now.room)), offset: int(now.offset), stride: int(now.stride),
		crop: image.Rectangle{Min: corner, Max: corner.Add(image.Pt(int(min(now.crop_size[0], mostSide)), int(min(now.crop_size[1], mostSide))))},
	}
	p, err = r.readCarefully(part, pix)
	p.Number = uint64(now.number)
	return p, err
}

// readCarefully is read for memory that another process may make smaller meanwhile.
func (r *raw) readCarefully(part image.Rectangle, pix []byte) (p Picture, err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("%w: its memory is gone: %v", ErrEnded, fault)
		}
	}()
	return r.read(part, pix)
}

// judge says whether the source has ended.
func (s *Source) judge(now *C.struct_look) error {
	const failed, none, streaming = -1, 0, 3 // PW, enum pw_stream_state
	words := C.GoString(now.words)
	switch {
	case now.state == failed:
		return fmt.Errorf("%w: %s", ErrEnded, words)
	case now.state == none: // it began to connect before it was first looked at
		return fmt.Errorf("%w: no connection: %s", ErrEnded, words)
	case now.state == streaming:
		s.ran, s.paused = true, time.Time{}
	case s.ran && s.paused.IsZero():
		s.paused = time.Now()
	case s.ran && time.Since(s.paused) > pausedMost:
		return fmt.Errorf("%w: it pauses", ErrEnded)
	}
	return nil
}

// Close ends the source. Closing twice is no error.
func (s *Source) Close() {
	s.mu.Lock()
	source := s.source
	s.source = nil
	s.mu.Unlock()
	if source == nil {
		return
	}
	C.pw_close(source) // no more is told after this
	s.free()
	<-s.done
}

// free gives back what the library's thread used.
func (s *Source) free() {
	_ = s.wake.Close()
	for _, m := range s.memory {
		C.free(m)
	}
}
