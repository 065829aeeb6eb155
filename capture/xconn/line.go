package xconn

import (
	"context"
	"fmt"
	"sync"
)

// Line makes requests one after the other, each on a goroutine of its own, so that the
// wait for a reply, which may never come, can be ended. What hangs is never
// doubled: the next request waits until it has returned. The zero Line is ready;
// its methods may be called from any goroutine.
type Line struct {
	once sync.Once
	turn chan struct{} // held while a request runs
	ends chan error    // what came of the request; the next one throws away what nobody took
	job  func() error  // the request
	run  func()        // runs it; bound once so that a request allocates nothing for it
	shut chan struct{} // closed by Close
	stop sync.Once
}

func (l *Line) init() {
	l.once.Do(func() {
		l.turn, l.ends, l.shut = make(chan struct{}, 1), make(chan error, 1), make(chan struct{})
		l.run = func() {
			l.ends <- guard(l.job)
			<-l.turn
		}
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
	select {
	case <-l.ends:
	default:
	}
	l.job = f
	go l.run()
	select {
	case err := <-l.ends:
		return err
	case <-ctx.Done():
		return notAnswering(ctx)
	}
}

// Close ends the line and does not wait. As soon as nothing hangs any more, last
// runs on a goroutine of its own. Closing twice is no error.
func (l *Line) Close(last func()) {
	l.init()
	l.stop.Do(func() {
		close(l.shut)
		go func() {
			l.turn <- struct{}{} // never given back: nobody gives a job any more
			last()
		}()
	})
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
