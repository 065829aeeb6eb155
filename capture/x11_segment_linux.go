package capture

import (
	"fmt"
	"sync"
	"syscall"

	"github.com/gen2brain/shm"
)

// segmentStep is what the sizes of segments are rounded up to, in bytes.
const segmentStep = 1 << 20

// segment is memory that the X server can write to: a System V segment, readable
// by this user alone, without a name from the moment we hold it. The system frees
// it when the last of us and the server lets go, however we end.
type segment struct {
	id  int
	mem []byte
}

// segments are kept for the next stream, never unmapped: a frame read after its
// stream was closed then shows old or foreign pixels, where it would else end the
// program. They are few, two for each size the desktop has grown through.
var segments struct {
	mu   sync.Mutex
	free []*segment
}

// takeSegment returns a segment of at least size bytes that no server holds.
func takeSegment(size int) (*segment, error) {
	segments.mu.Lock()
	defer segments.mu.Unlock()
	for i, s := range segments.free {
		if len(s.mem) >= size && s.holders() == 1 {
			segments.free = append(segments.free[:i], segments.free[i+1:]...)
			return s, nil
		}
	}
	return newSegment((size + segmentStep - 1) / segmentStep * segmentStep)
}

// newSegment makes a segment and takes its name away: Linux lets the server attach
// it all the same, and nothing is left behind if we are killed.
func newSegment(size int) (*segment, error) {
	id, err := shm.Get(shm.IPC_PRIVATE, size, shm.IPC_CREAT|0o600)
	if err != nil {
		return nil, fmt.Errorf("shared memory of %d bytes: %w", size, err)
	}
	mem, err := shm.At(id, 0, 0)
	if gone := shm.Rm(id); err == nil {
		err = gone
	}
	if err != nil {
		return nil, fmt.Errorf("attach shared memory: %w", err)
	}
	return &segment{id, mem}, nil
}

// giveBack keeps s for the next stream, but what it takes of memory goes: it reads as zeros then.
func (s *segment) giveBack() {
	_ = syscall.Madvise(s.mem, syscall.MADV_REMOVE) // else it takes some memory
	segments.mu.Lock()
	defer segments.mu.Unlock()
	segments.free = append(segments.free, s)
}

// holders counts the processes that have s attached, ours included; 0 if unknown.
func (s *segment) holders() int {
	var d shm.IdDs
	if _, err := shm.Ctl(s.id, shm.IPC_STAT, &d); err != nil {
		return 0
	}
	return int(d.Nattch)
}
