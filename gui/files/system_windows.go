package files

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
	"time"
)

// Programs that look for viruses or list what is on the disk open a new file for a moment, and a file
// that is open keeps its name. How long and how often to wait for them is our choice.
const (
	renameMost = time.Second
	renameWait = 10 * time.Millisecond
)

// create makes a new file that can be removed while it is being written: as Go opens files here,
// Abandon could not.
func create(path string) (*os.File, error) {
	h, err := createShared(path)
	if err != nil {
		return nil, &fs.PathError{Op: "open", Path: path, Err: err}
	}
	return os.NewFile(uintptr(h), path), nil
}

func createShared(path string) (syscall.Handle, error) {
	name, err := syscall.UTF16PtrFromString(path)
	if err != nil {
		return 0, err
	}
	const shared = syscall.FILE_SHARE_READ | syscall.FILE_SHARE_WRITE | syscall.FILE_SHARE_DELETE
	return syscall.CreateFile(name, syscall.GENERIC_WRITE, shared, nil, syscall.CREATE_NEW, syscall.FILE_ATTRIBUTE_NORMAL, 0)
}

// rename gives a file or folder another name, in one step, once no other program holds it up.
func rename(from, to string) error {
	const sharingViolation = syscall.Errno(32)
	for end := time.Now().Add(renameMost); ; time.Sleep(renameWait) {
		err := os.Rename(from, to)
		held := errors.Is(err, syscall.ERROR_ACCESS_DENIED) || errors.Is(err, sharingViolation)
		if !held || time.Now().After(end) {
			return err
		}
	}
}
