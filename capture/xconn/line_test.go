package xconn

import (
	"context"
	"errors"
	"testing"
	"testing/synctest"
	"time"
)

func TestLine(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var l Line
		ctx := t.Context()
		cause := errors.New("cause")
		if err := l.Do(ctx, func() error { return cause }); err != cause {
			t.Errorf("an error: %v", err)
		}
		if err := l.Do(ctx, func() error { panic("short reply") }); !errors.Is(err, ErrBroken) {
			t.Errorf("a panic: %v, want ErrBroken", err)
		}
		l.Close(func() {})
		l.Close(func() {})
		synctest.Wait()
		if err := l.Do(ctx, func() error { return nil }); err != ErrShut {
			t.Errorf("after Close: %v, want ErrShut", err)
		}
	})
}

// What hangs is never doubled, and its late result is nobody's.
func TestLineHangs(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var l Line
		answer := make(chan struct{})
		hung := errors.New("the old result")
		started := 0
		hang := func() error { started++; <-answer; return hung }
		brief := func() context.Context {
			ctx, cancel := context.WithTimeout(t.Context(), time.Second)
			t.Cleanup(cancel)
			return ctx
		}
		for range 3 {
			if err := l.Do(brief(), hang); !errors.Is(err, ErrNotAnswering) || !errors.Is(err, context.DeadlineExceeded) {
				t.Errorf("hanging: %v", err)
			}
		}
		synctest.Wait()
		if started != 1 {
			t.Errorf("%d requests were started, want 1", started)
		}
		close(answer)
		if err := l.Do(brief(), func() error { return nil }); err != nil {
			t.Errorf("after the hang: %v", err)
		}
		l.Close(func() {})
	})
}

// The last act waits for what hangs; Close does not.
func TestLineClosesLate(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var l Line
		answer := make(chan struct{})
		ctx, cancel := context.WithTimeout(t.Context(), time.Second)
		defer cancel()
		if err := l.Do(ctx, func() error { <-answer; return nil }); !errors.Is(err, ErrNotAnswering) {
			t.Fatal(err)
		}
		last := make(chan struct{})
		l.Close(func() { close(last) })
		synctest.Wait()
		select {
		case <-last:
			t.Error("the memory was given back under a running request")
		default:
		}
		close(answer)
		<-last
	})
}
