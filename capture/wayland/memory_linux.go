package wayland

import (
	"fmt"

	"golang.org/x/sys/unix"

	"app.tonedesk/capture/wayland/wire"
)

// Requests about shared memory. Source: WL.
const (
	shmCreatePool               = 0
	poolCreateBuffer, poolLeave = 0, 1
	bufferLeave                 = 0
)

// memory is what the compositor copies pictures into. It has no name in the file system, and can't be
// made smaller under us. Used while the display's mu is held.
type memory struct {
	layout
	bytes  []byte
	buffer uint32 // object; 0: none yet
}

// fit makes it fit a layout, which was checked, and reports whether it is new.
func (m *memory) fit(s *session, l layout) (fresh bool, err error) {
	if m.buffer != 0 && m.layout == l {
		return false, nil
	}
	s.leave(m.buffer, bufferLeave)
	m.free()
	file, err := unix.MemfdCreate("picture", unix.MFD_CLOEXEC|unix.MFD_ALLOW_SEALING)
	if err != nil {
		return false, fmt.Errorf("memory to share: %w", err)
	}
	defer unix.Close(file)
	if err := unix.Ftruncate(file, int64(l.bytes())); err != nil {
		return false, fmt.Errorf("%d bytes of memory to share: %w", l.bytes(), err)
	}
	if _, err := unix.FcntlInt(uintptr(file), unix.F_ADD_SEALS, unix.F_SEAL_SHRINK); err != nil {
		return false, fmt.Errorf("memory to share that stays: %w", err)
	}
	if m.bytes, err = unix.Mmap(file, 0, l.bytes(), unix.PROT_READ, unix.MAP_SHARED); err != nil {
		return false, fmt.Errorf("%d bytes of memory to share: %w", l.bytes(), err)
	}
	pool := s.object(nil)
	m.layout, m.buffer = l, s.object(nil)
	s.sendWith([]int{file}, wire.New(s.shm, shmCreatePool).Uint(pool).Int(int32(l.bytes())))
	s.send(wire.New(pool, poolCreateBuffer).Uint(m.buffer).Int(0, int32(l.size.X), int32(l.size.Y), int32(l.stride)).Uint(l.format))
	s.leave(pool, poolLeave) // the buffer holds it
	return true, nil
}

// holds reports whether a picture of a layout can lie in it.
func (m *memory) holds(l layout) bool { return m.bytes != nil && m.layout == l }

// free gives it back. Nobody may read it any more.
func (m *memory) free() {
	if m.bytes != nil {
		_ = unix.Munmap(m.bytes)
	}
	*m = memory{}
}
