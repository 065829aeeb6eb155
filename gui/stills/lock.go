package stills

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"app.tonedesk/capture/plainfile"
)

// How long a change waits for another program's, and how often it looks: changes take
// milliseconds.
const (
	lockWait = 5 * time.Second
	lockLook = 5 * time.Millisecond
)

// lockName is the file that is locked, in the folder of stills and in a still's.
const lockName = "lock"

// lock keeps other programs from changing stills until unlock is called. The error wraps
// ErrBusy where another program doesn't let go.
func (s *Store) lock() (unlock func(), err error) {
	for end := time.Now().Add(lockWait); ; time.Sleep(lockLook) {
		f, err := hold(s.folders.Data, os.O_CREATE)
		switch {
		case err == nil:
			return func() { _ = f.Close() }, nil
		case !errors.Is(err, ErrHeld):
			return nil, err
		case time.Now().After(end):
			return nil, ErrBusy
		}
	}
}

// hold locks a folder until the file that it returns is closed. The system takes the lock
// off a program that ends, however it ends. flag is os.O_CREATE to make the file if there is
// none. The error wraps ErrHeld where another window has the lock.
func hold(folder string, flag int) (*os.File, error) {
	f, _, err := plainfile.Open(filepath.Join(folder, lockName), os.O_RDWR|flag)
	if errors.Is(err, plainfile.ErrNotPlain) || errors.Is(err, plainfile.ErrFolder) {
		return nil, fmt.Errorf("%w: %v", ErrLock, err)
	}
	if err != nil {
		return nil, err
	}
	held, err := lockFile(f)
	if err == nil && !held {
		err = ErrHeld
	}
	if err != nil {
		_ = f.Close()
		return nil, fmt.Errorf("lock %s: %w", folder, err)
	}
	return f, nil
}

// free returns an error that wraps ErrHeld if a window marks the still in a folder. With the
// store's lock none begins to. It makes no file: the disk may be full.
func free(folder string) error {
	f, err := hold(folder, 0)
	if err == nil {
		_ = f.Close() // before the folder is moved: Windows does not move open files
	}
	if errors.Is(err, ErrHeld) {
		return err
	}
	return nil // no lock was ever made, or whoever moves the folder says what is wrong
}
