package capture

import (
	"syscall"
	"time"
)

// ProcessorTime returns the processor time that the program has used so far, of all cores, its own
// and the system's for it; 0 where it isn't known.
func ProcessorTime() time.Duration {
	var created, ended, system, own syscall.Filetime
	process, err := syscall.GetCurrentProcess()
	if err != nil || syscall.GetProcessTimes(process, &created, &ended, &system, &own) != nil {
		return 0
	}
	const unit = 100 * time.Nanosecond
	count := func(f syscall.Filetime) time.Duration {
		return time.Duration(int64(f.HighDateTime)<<32 + int64(f.LowDateTime))
	}
	return unit * (count(system) + count(own))
}
