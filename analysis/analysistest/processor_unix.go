//go:build unix

package analysistest

import (
	"syscall"
	"time"
)

// Processor is how much time of the processor the test has taken so far, on all cores.
func Processor() time.Duration {
	var r syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &r)
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}
