package xconn

import (
	"context"
	"fmt"
	"sync"
)

// Line makes requests one after the other on a goroutine of its own, so that the
// wait for a reply, which may never come, can be ended. What hangs is never
// doubled: the next request waits until it has returned. The zero Line is ready;
// its methods may be called from any goroutine.
type Line struct {
	once sync.Once
	turn chan struct{}     // who holds it may give jobs
	jobs chan func() error // closed by Close
	ends chan error        // of the jobs, one by one
	open bool              // guarded by turn: a job given has not been waited for
	shut chan struct{}     // closed by Close
	stop sync.Once
}

func (l *Line) init() {
	l.once.Do(func() {
		l.turn, l.jobs, l.ends = make(chan struct{}, 1), make(chan func() error), make(chan error, 1)
		l.shut = make(chan struct{})
		go l.work()
	})
}

// Do runs f and returns its error; a panic of f becomes an error that wraps
// ErrBroken. If ctx ends first it returns at once, with an error that wraps
// ErrNotAnswering and the context's: f then goes on, and what it uses must not be
// touched before a later Do has run.
func (l *Line) Do(ctx context.Context, f func() error) error {
	l.init()
	select {
	case <-l.shut:
		return ErrShut
	default:
	}
	select {
	case l.turn <- struct{}{}:
	case <-l.shut:
		return ErrShut
	case <-ctx.Done():
		return notAnswering(ctx)
	}
	defer func() { <-l.turn }()
	if l.open { // a request from before hangs, or has returned late: that result is old
		select {
		case <-l.ends:
			l.open = false
		case <-l.shut:
			return ErrShut
		case <-ctx.Done():
			return notAnswering(ctx)
		}
	}
	select {
	case l.jobs <- f:
	case <-l.shut:
		return ErrShut
	case <-ctx.Done():
		return notAnswering(ctx)
	}
	select {
	case err := <-l.ends:
		return l.blame(err)
	case <-ctx.Done():
		l.open = true
		return notAnswering(ctx)
	}
}

// blame says that a request failed because the line was closed under it, if it was: the
// owner then cuts the connection, and that is no loss of it.
func (l *Line) blame(err error) error {
	select {
	case <-l.shut:
		if err != nil {
			return fmt.Errorf("%w: %v", ErrShut, err) // not wrapped: it is not what happened
		}
	default:
	}
	return err
}

// Close ends the line and does not wait. As soon as nothing hangs any more, last
// runs on a goroutine of its own (nil: nothing runs). Closing twice is no error.
func (l *Line) Close(last func()) {
	l.init()
	l.stop.Do(func() {
		close(l.shut)
		go func() {
			l.turn <- struct{}{} // never given back: nobody gives a job any more
			if l.open {
				<-l.ends
			}
			close(l.jobs)
			if last != nil {
				last()
			}
		}()
	})
}

// work runs the jobs.
func (l *Line) work() {
	for f := range l.jobs {
		l.ends <- guard(f)
	}
}

// guard runs f and turns a panic into an error: the client library reads replies
// without checking their lengths.
func guard(f func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%w: reply cannot be read: %v", ErrBroken, r)
		}
	}()
	return f()
}

func notAnswering(ctx context.Context) error {
	return fmt.Errorf("%w: %w", ErrNotAnswering, ctx.Err())
}
