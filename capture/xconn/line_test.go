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
		l.Close(nil)
		l.Close(nil)
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
		l.Close(nil)
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

// A request that fails because the line was closed under it doesn't say that the
// connection broke; one that succeeds all the same has succeeded.
func TestLineClosedUnderRequest(t *testing.T) {
	for _, tt := range []struct {
		name      string
		end, want error
	}{{"cut", ErrBroken, ErrShut}, {"answered", nil, nil}} {
		t.Run(tt.name, func(t *testing.T) {
			var l Line
			err := l.Do(t.Context(), func() error { l.Close(nil); return tt.end })
			if !errors.Is(err, tt.want) || errors.Is(err, ErrBroken) {
				t.Errorf("got %v, want %v", err, tt.want)
			}
		})
	}
}
