package memory

import (
	"fmt"
	"math"
	"os"
	"runtime"
	"runtime/debug"
)

// What the runtime may hold, in bytes, so that the system counts at most 600 MB (our choice)
// for the program: beside it a command has some 25 MB of code and tables, and the window
// 120 MB with the toolkit and the software that draws it (measured).
const (
	OfCommands = 568_000_000
	OfWindow   = 470_000_000
)

// spare is what goes on beside the pictures needs, in bytes, and large from how many bytes on
// room is asked for at all: collecting costs less than a millisecond then (our choices).
const (
	spare = 6_000_000
	large = 16_000_000
)

// Hold holds the program to a number of bytes, unless the user set GOMEMLIMIT.
func Hold(bytes int64) {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(bytes)
	}
}

// Full says that there is no room. It is an error.
type Full struct{ Takes, Free int64 } // bytes

func (f *Full) Error() string { return fmt.Sprintf("takes %d bytes of %d", f.Takes, f.Free) }

// Room reports whether there is room for so many bytes beside all that is held; the error is a
// *Full. What was let go of before counts no more, and is given back.
func Room(bytes int64) error {
	if bytes < large {
		return nil
	}
	if free := Free(); bytes > free {
		return &Full{bytes, free}
	}
	return nil
}

// Free returns for how many bytes there is room beside all that is held. What was let go of before
// is given back.
func Free() int64 {
	debug.FreeOSMemory()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	limit := debug.SetMemoryLimit(-1)
	if limit == math.MaxInt64 {
		limit = OfCommands
	}
	return max(0, limit-spare-int64(m.Sys-m.HeapReleased))
}

// LetGo gives back what nobody holds any more, of which there are so many bytes, before more
// is taken.
func LetGo(bytes int) {
	if bytes >= large {
		debug.FreeOSMemory()
	}
}
