package analysis

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// crew does one job in pieces on all cores, again and again, without allocating. Whoever
// calls do works too; the others are goroutines that sleep between jobs. Which of them
// gets which piece is chance: a job must not let its result depend on it.
type crew struct {
	piece   func(worker, piece int)
	helpers int
	pieces  int64
	next    atomic.Int64
	wake    chan int // numbers of workers to join in
	done    sync.WaitGroup
}

// crewLimit bounds the workers: beyond it memory, not arithmetic, is the limit.
const crewLimit = 8

// newCrew starts a crew whose job is piece, called with the number of the worker, from 0 to
// workers() - 1, and the number of the piece.
func newCrew(piece func(worker, piece int)) *crew {
	c := &crew{piece: piece, helpers: min(runtime.GOMAXPROCS(0), crewLimit) - 1}
	c.wake = make(chan int, c.helpers)
	for range c.helpers {
		go c.help(c.wake)
	}
	return c
}

// workers returns how many goroutines may call piece at once.
func (c *crew) workers() int { return c.helpers + 1 }

// do calls piece for 0 to pieces - 1, each once, and returns when all calls have returned.
func (c *crew) do(pieces int) {
	c.pieces = int64(pieces)
	c.next.Store(0)
	helpers := max(0, min(c.helpers, pieces-1))
	c.done.Add(helpers)
	for i := range helpers {
		c.wake <- i + 1
	}
	c.work(0)
	c.done.Wait()
}

// doOther calls another piece than the crew's own in the same way.
func (c *crew) doOther(piece func(worker, piece int), pieces int) {
	own := c.piece
	c.piece = piece
	c.do(pieces)
	c.piece = own
}

// close ends the goroutines. The crew goes on working for its caller, alone.
func (c *crew) close() {
	if c.wake != nil {
		close(c.wake)
	}
	c.wake, c.helpers = nil, 0
}

func (c *crew) help(wake <-chan int) {
	for worker := range wake {
		c.work(worker)
		c.done.Done()
	}
}

func (c *crew) work(worker int) {
	for {
		i := c.next.Add(1) - 1
		if i >= c.pieces {
			return
		}
		c.piece(worker, int(i))
	}
}
