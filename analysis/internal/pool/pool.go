package pool

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"
)

// Workers does one job in pieces on all cores, again and again, without allocating. Whoever
// calls do works too; the others are goroutines that sleep between jobs. Which of them
// gets which piece is chance: a job must not let its result depend on it.
type Workers struct {
	piece   func(worker, piece int)
	helpers int
	pieces  int64
	next    atomic.Int64
	wake    chan int // numbers of workers to join in
	done    sync.WaitGroup
	failed  atomic.Pointer[error] // the first panic of a piece, with its stack
}

// mostWorkers bounds the workers: beyond it memory, not arithmetic, is the limit.
const mostWorkers = 8

// New starts workers whose job is piece, called with the number of the worker, from 0 to
// Workers() - 1, and the number of the piece.
func New(piece func(worker, piece int)) *Workers {
	c := &Workers{piece: piece, helpers: min(runtime.GOMAXPROCS(0), mostWorkers) - 1}
	c.wake = make(chan int, c.helpers)
	for range c.helpers {
		go c.help(c.wake)
	}
	return c
}

// Workers returns how many goroutines may call piece at once.
func (c *Workers) Workers() int { return c.helpers + 1 }

// Do calls piece for 0 to pieces - 1, each once, and returns when all calls have returned. If
// one panics, on whichever goroutine, Do panics with an error that has its stack, so that the
// caller can recover.
func (c *Workers) Do(pieces int) {
	c.pieces = int64(pieces)
	c.next.Store(0)
	helpers := max(0, min(c.helpers, pieces-1))
	c.done.Add(helpers)
	for i := range helpers {
		c.wake <- i + 1
	}
	c.work(0)
	c.done.Wait()
	if err := c.failed.Swap(nil); err != nil {
		panic(*err)
	}
}

// DoOther calls another piece than the workers' own in the same way.
func (c *Workers) DoOther(piece func(worker, piece int), pieces int) {
	own := c.piece
	defer func() { c.piece = own }()
	c.piece = piece
	c.Do(pieces)
}

// Close ends the goroutines. The caller goes on working alone.
func (c *Workers) Close() {
	if c.wake != nil {
		close(c.wake)
	}
	c.wake, c.helpers = nil, 0
}

func (c *Workers) help(wake <-chan int) {
	for worker := range wake {
		c.work(worker)
		c.done.Done()
	}
}

func (c *Workers) work(worker int) {
	defer func() {
		if r := recover(); r != nil {
			err := fmt.Errorf("%v\n%s", r, debug.Stack())
			c.failed.CompareAndSwap(nil, &err)
		}
	}()
	for {
		i := c.next.Add(1) - 1
		if i >= c.pieces {
			return
		}
		c.piece(worker, int(i))
	}
}
