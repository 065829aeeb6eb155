package command

import (
	"errors"
	"runtime"
	"sync"

	"app.tonedesk/capture/memory"
	"app.tonedesk/capture/picturefile"
	"app.tonedesk/gui/mistake"
)

// besideBytes is what measuring takes of memory, a pixel, beside the picture (our choice: what
// families take, the most, is held to it by the test of the built program).
const besideBytes = 6

// fileWork does what is slow with a picture file, on any goroutine, and returns how to report it.
type fileWork func(path string) (report func() error, err error)

// finished is what came of a file.
type finished struct {
	number int // among the operands
	report func() error
	err    error
	broken error // it broke down: with the stack
}

// eachFile does something with every picture file among the operands: as many at a time as there are
// cores, and memory. They are reported in their order, each as soon as those before it are.
func (c *call) eachFile(work fileWork) {
	count := len(c.operands)
	workers := min(runtime.GOMAXPROCS(0), count)
	shared := newShares(memory.Free())
	numbers, done, stop := make(chan int), make(chan finished), make(chan struct{})
	defer close(stop)
	for range workers {
		go func() {
			for i := range numbers {
				f := shared.work(c.operands[i], work)
				f.number = i
				select {
				case done <- f:
				case <-stop:
				}
			}
		}()
	}
	go func() {
		defer close(numbers)
		for i := range count {
			select {
			case numbers <- i:
			case <-stop:
				return
			}
		}
	}()
	said := progress{of: count, to: c.Err}
	waiting := make([]*finished, count)
	for next, n := 0, 0; n < count; n++ {
		said.say(n)
		f := <-done
		said.clear()
		for waiting[f.number] = &f; next < count && waiting[next] != nil; next++ {
			if !c.reportFile(waiting[next]) {
				return
			}
		}
	}
}

// reportFile reports what came of a file, and returns whether reports can be written still: run says
// why not.
func (c *call) reportFile(f *finished) bool {
	if f.broken != nil {
		panic(f.broken)
	}
	c.begun = f.number > 0 // also after a file that could not be read
	if f.err == nil {
		f.err = f.report()
	}
	if f.err != nil {
		c.fail(f.err.Error())
	}
	return c.out.Flush() == nil
}

// shares are the memory that pictures worked on at the same time have between them.
type shares struct {
	mu    sync.Mutex
	given sync.Cond
	whole int64 // bytes
	free  int64
}

func newShares(bytes int64) *shares {
	s := &shares{whole: bytes, free: bytes}
	s.given.L = &s.mu
	return s
}

// take waits for so many bytes, or all there are, and returns how many it took.
func (s *shares) take(bytes int64) int64 {
	s.mu.Lock()
	defer s.mu.Unlock()
	bytes = min(bytes, s.whole)
	for s.free < bytes {
		s.given.Wait()
	}
	s.free -= bytes
	return bytes
}

// give gives them back.
func (s *shares) give(bytes int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.free += bytes
	s.given.Broadcast()
}

// work works on a file as soon as there is memory for it beside the others. Where there is too little
// all the same, it works on it once more, alone.
func (s *shares) work(path string, work fileWork) finished {
	pixels, bytes := picturefile.Needs(path)
	f := s.within(bytes+besideBytes*pixels, path, work)
	if full := (*memory.Full)(nil); errors.As(f.err, &full) {
		f = s.within(s.whole, path, work)
	}
	return f
}

func (s *shares) within(bytes int64, path string, work fileWork) (f finished) {
	taken := s.take(bytes)
	defer s.give(taken)
	f.broken = mistake.Guard(func() error {
		f.report, f.err = work(path)
		return nil
	})
	return f
}
