package lean

import (
	"runtime/debug"
	"runtime/metrics"
	"time"
)

// How often GiveBack looks, and from how many free bytes of the runtime on it pays: collecting takes
// some 30 ms of the processor's time, what the C library does at most a few (measured: mostly 0.2 to
// 0.6, once 6). Our choices.
const (
	lookEvery = 5 * time.Second
	worthIt   = 6_000_000
)

// GiveBack gives memory that nobody uses any more back to the system, now and then, as long as the
// program runs. The runtime by itself keeps a tenth of what it ever needed a while before, and the
// C library nearly all.
func GiveBack() {
	free := []metrics.Sample{{Name: "/memory/classes/heap/free:bytes"}}
	for range time.Tick(lookEvery) {
		if metrics.Read(free); free[0].Value.Uint64() >= worthIt {
			debug.FreeOSMemory()
		}
		trim()
	}
}
