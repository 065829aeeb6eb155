//go:build unix

package capture

import (
	"syscall"
	"time"
)

// ProcessorTime returns the processor time that the program has used so far, of all cores, its own
// and the system's for it; 0 where it isn't known. Source: POSIX.1-2017, getrusage.
func ProcessorTime() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
