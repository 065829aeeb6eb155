package pool

import (
	"strings"
	"sync/atomic"
	"testing"
)

// Every piece is done once, again and again, without allocating.
func TestWorkersDoAll(t *testing.T) {
	var done [100]atomic.Int32
	w := New(func(_, piece int) { done[piece].Add(1) })
	defer w.Close()
	if n := testing.AllocsPerRun(20, func() { w.Do(len(done)) }); n > 0 {
		t.Errorf("%g allocations", n)
	}
	for i := range done {
		if n := done[i].Load(); n != 21 { // AllocsPerRun runs once more, to warm up
			t.Errorf("piece %d was done %d times, want 21", i, n)
		}
	}
}

// A panic in any piece reaches the caller, and the workers go on.
func TestWorkersPanicInTheCaller(t *testing.T) {
	for bad := range 8 {
		var done atomic.Int32
		w := New(func(_, piece int) {
			if piece == bad {
				panic("a mistake")
			}
			done.Add(1)
		})
		func() {
			defer func() {
				if err, ok := recover().(error); !ok || !strings.Contains(err.Error(), "a mistake") {
					t.Errorf("piece %d: the caller got %v", bad, err)
				}
			}()
			w.Do(8)
		}()
		w.DoOther(func(_, _ int) { done.Add(1) }, 5)
		if n := done.Load(); n < 5 {
			t.Errorf("afterwards %d pieces were done", n)
		}
		w.Close()
	}
}
