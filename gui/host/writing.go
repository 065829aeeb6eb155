package host

import (
	"context"
	"sync"
	"time"
)

// Writing counts what is being written, so that the program's end can wait for it. Its zero
// value is ready; its methods may be called from any goroutine.
type Writing struct {
	mu   sync.Mutex
	n    int
	none chan struct{} // closed once nothing is being written; nil while nobody waits
}

// Begin says that something is about to be written, and done that it is, or was tried.
func (w *Writing) Begin() (done func()) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.n++
	return sync.OnceFunc(func() {
		w.mu.Lock()
		defer w.mu.Unlock()
		if w.n--; w.n == 0 && w.none != nil {
			close(w.none)
			w.none = nil
		}
	})
}

// Wait waits until nothing is being written.
func (w *Writing) Wait() {
	w.mu.Lock()
	if w.n == 0 {
		w.mu.Unlock()
		return
	}
	if w.none == nil {
		w.none = make(chan struct{})
	}
	none := w.none
	w.mu.Unlock()
	<-none
}

// SaveMost is how long saving may hold up the end of the program. Our choice: a still of 100
// megapixels is written in less, and who logs out gets more.
const SaveMost = 10 * time.Second

// Within returns what save returns, or context.DeadlineExceeded if that takes too long: a disk
// that does not answer holds nobody up.
func Within(most time.Duration, save func() error) error {
	saved := make(chan error, 1)
	go func() { saved <- save() }()
	select {
	case err := <-saved:
		return err
	case <-time.After(most):
		return context.DeadlineExceeded
	}
}
