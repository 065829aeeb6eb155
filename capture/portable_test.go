package capture

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"
)

// Calls to the screen module never overlap, also where nobody waits for one any more.
func TestOnPortable(t *testing.T) {
	release, began := make(chan struct{}), make(chan struct{})
	ctx, cancel := context.WithCancel(context.Background())
	left := make(chan error, 1)
	go func() {
		_, err := onPortable(ctx, func() (int, error) { close(began); <-release; return 1, nil })
		left <- err
	}()
	<-began
	cancel()
	if err := <-left; !errors.Is(err, ErrNotAnswering) || !errors.Is(err, context.Canceled) {
		t.Errorf("a call that was left: %v", err)
	}
	var second atomic.Bool
	got := make(chan int, 1)
	go func() {
		v, _ := onPortable(context.Background(), func() (int, error) { second.Store(true); return 2, nil })
		got <- v
	}()
	if _, err := onPortable(ctx, func() (int, error) { return 3, nil }); !errors.Is(err, ErrNotAnswering) {
		t.Errorf("an ended context: %v", err)
	}
	if second.Load() {
		t.Error("a second call began while the first was under way")
	}
	close(release)
	if v := <-got; v != 2 {
		t.Errorf("the second call gave %d", v)
	}
	if _, err := onPortable(context.Background(), func() (int, error) { panic("index") }); !errors.Is(err, errPanic) {
		t.Errorf("a panic: %v", err)
	}
}
