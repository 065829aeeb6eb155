package stills

import (
	"fmt"
	"os"
	"path/filepath"
	"time"
)

// How long a change waits for another program's, and how often it looks: changes take
// milliseconds.
const (
	lockWait = 5 * time.Second
	lockLook = 5 * time.Millisecond
)

// lock keeps other programs from changing stills until unlock is called. The system takes
// the lock off a program that ends, however it ends. The error wraps ErrBusy where another
// program doesn't let go.
func (s *Store) lock() (unlock func(), err error) {
	f, err := os.OpenFile(filepath.Join(s.folders.Data, "lock"), os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	for end := time.Now().Add(lockWait); ; time.Sleep(lockLook) {
		held, err := lockFile(f)
		if err != nil {
			_ = f.Close()
			return nil, fmt.Errorf("lock the folder of stills: %w", err)
		}
		if held {
			return func() { _ = f.Close() }, nil // which lets go
		}
		if time.Now().After(end) {
			_ = f.Close()
			return nil, ErrBusy
		}
	}
}
