package attack

import (
	"bytes"
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
	"time"
)

// lookEvery is how often threads are looked at while an answer is awaited; our choice.
const lookEvery = 10 * time.Millisecond

// span is some time, from and to.
type span struct{ from, to time.Time }

// covered adds up the time in which at least one of the spans lies.
func covered(spans []span) (sum time.Duration) {
	slices.SortFunc(spans, func(a, b span) int { return a.from.Compare(b.from) })
	var until time.Time
	for _, s := range spans {
		if s.from.Before(until) {
			s.from = until
		}
		if s.to.After(s.from) {
			sum, until = sum+s.to.Sub(s.from), s.to
		}
	}
	return sum
}

// waiting watches when threads of some processes wait for a core that others have. An answer waits for
// one of them after the other: the window for those that draw, and these for the display.
type waiting struct {
	pids  []int // the program's first
	began time.Time
	known map[string]scheduled
	ran   time.Duration // the program's own at first, then what it ran since
	spans []span
	stop  chan struct{}
	done  chan struct{}
}

func watchWaiting(pids ...int) *waiting {
	w := &waiting{pids: pids, began: time.Now(), known: map[string]scheduled{}, stop: make(chan struct{}), done: make(chan struct{})}
	w.look()
	w.spans = nil // what was before
	go func() {
		defer close(w.done)
		for tick := time.NewTicker(lookEvery); ; {
			select {
			case <-tick.C:
				w.look()
			case <-w.stop:
				tick.Stop()
				w.look()
				return
			}
		}
	}()
	return w
}

// look notes who has waited since the last look. The system counts waiting when it is over, so that it
// was just now.
func (w *waiting) look() {
	now := time.Now()
	for _, pid := range w.pids {
		for thread, s := range schedule(pid) {
			before, met := w.known[thread]
			w.known[thread] = s
			if by := s.waited - before.waited; met && by > 0 {
				w.spans = append(w.spans, span{now.Add(-min(by, now.Sub(w.began))), now})
			}
			if met && thread == threadPath(w.pids[0], w.pids[0]) {
				w.ran += s.ran - before.ran
			}
		}
	}
}

// own ends watching, and returns how much of the time that an answer took nobody waited for a core; at
// least what the program's first thread, which draws and answers, ran.
func (w *waiting) own(took time.Duration) time.Duration {
	close(w.stop)
	<-w.done
	return min(took, max(took-covered(w.spans), w.ran))
}

// scheduled is how long a thread has run and waited for a core so far.
type scheduled struct{ ran, waited time.Duration }

func threadPath(pid, thread int) string {
	return fmt.Sprintf("/proc/%d/task/%d/schedstat", pid, thread)
}

// schedule returns that of each thread of a process. Source: Linux kernel documentation,
// scheduler/sched-stats: the first two numbers, in nanoseconds.
func schedule(pid int) map[string]scheduled {
	threads := map[string]scheduled{}
	paths, _ := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/schedstat", pid))
	for _, path := range paths {
		text, _ := os.ReadFile(path)
		if f := bytes.Fields(text); len(f) == 3 {
			ran, err := strconv.ParseInt(string(f[0]), 10, 64)
			waited, err2 := strconv.ParseInt(string(f[1]), 10, 64)
			if cmp.Or(err, err2) == nil {
				threads[path] = scheduled{time.Duration(ran), time.Duration(waited)}
			}
		}
	}
	return threads
}

// Waiting of several at once counts once, and one after the other adds up.
func TestCovered(t *testing.T) {
	at := func(from, to int) span { return span{time.UnixMilli(int64(from)), time.UnixMilli(int64(to))} }
	for name, tt := range map[string]struct {
		spans []span
		want  time.Duration
	}{
		"none":        {nil, 0},
		"one":         {[]span{at(5, 9)}, 4 * time.Millisecond},
		"apart":       {[]span{at(20, 30), at(0, 10)}, 20 * time.Millisecond},
		"overlapping": {[]span{at(5, 15), at(0, 10)}, 15 * time.Millisecond},
		"within":      {[]span{at(0, 10), at(2, 5), at(9, 11)}, 11 * time.Millisecond},
		"turned":      {[]span{at(10, 0)}, 0},
	} {
		if got := covered(tt.spans); got != tt.want {
			t.Errorf("%s: %v, want %v", name, got, tt.want)
		}
	}
}

// What a process does itself is its own, however many others wait meanwhile: the test's is busy.
func TestOwnIsWhatItRuns(t *testing.T) {
	w := watchWaiting(os.Getpid())
	w.ran = 40 * time.Millisecond
	w.spans = []span{{w.began, w.began.Add(time.Hour)}}
	if own := w.own(100 * time.Millisecond); own < 40*time.Millisecond || own > 100*time.Millisecond {
		t.Errorf("of 100 ms, 40 of them run, %v are its own", own)
	}
}
