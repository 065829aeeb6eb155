package testkit

import "testing"

// LeastAllocs returns how often f allocates, at the best of five tries: what the runtime
// allocates beside it, on a busy machine more often, counts too.
func LeastAllocs(runs int, f func()) float64 {
	least := testing.AllocsPerRun(runs, f)
	for range 4 {
		if least == 0 {
			break
		}
		least = min(least, testing.AllocsPerRun(runs, f))
	}
	return least
}
