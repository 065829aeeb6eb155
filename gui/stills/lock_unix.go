//go:build unix && !solaris && !illumos && !aix

package stills

import (
	"errors"
	"os"
	"syscall"
)

// lockFile tries to lock a file for this program alone. Where the file system has no locks
// it counts as locked: two programs at once are then on their own.
func lockFile(f *os.File) (held bool, err error) {
	err = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	switch {
	case err == nil, errors.Is(err, errors.ErrUnsupported), errors.Is(err, syscall.ENOLCK):
		return true, nil
	case errors.Is(err, syscall.EWOULDBLOCK), errors.Is(err, syscall.EINTR):
		return false, nil
	}
	return false, err
}
