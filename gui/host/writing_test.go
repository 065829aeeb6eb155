package host

import (
	"context"
	"errors"
	"testing"
	"time"
)

// Waiting ends once all that was begun is done, however often it is said to be.
func TestWritingWaits(t *testing.T) {
	var w Writing
	w.Wait() // for nothing
	first, second := w.Begin(), w.Begin()
	waited := make(chan struct{})
	for range 2 {
		go func() {
			w.Wait()
			waited <- struct{}{}
		}()
	}
	first()
	first()
	select {
	case <-waited:
		t.Fatal("one is still being written")
	default:
	}
	second()
	<-waited
	<-waited
	third := w.Begin()
	third()
	w.Wait()
}

// A disk that does not answer holds nobody up.
func TestWithin(t *testing.T) {
	fails, hangs := errors.New("said by the test"), make(chan struct{})
	defer close(hangs)
	if err := Within(time.Hour, func() error { return fails }); !errors.Is(err, fails) {
		t.Error(err)
	}
	if err := Within(time.Millisecond, func() error { <-hangs; return nil }); !errors.Is(err, context.DeadlineExceeded) {
		t.Error(err)
	}
}
