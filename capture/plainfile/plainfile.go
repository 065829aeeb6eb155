package plainfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

var (
	// ErrFolder: the path is a folder's.
	ErrFolder = errors.New("is a folder")
	// ErrNotPlain: the path is that of a device, a pipe or a socket.
	ErrNotPlain = errors.New("not a plain file")
	// ErrLarge: the file has more bytes than were asked for.
	ErrLarge = errors.New("file too large")
)

// Open opens a file as os.OpenFile does, for its owner alone where it makes one, and says
// what it is. It never waits. flag must not empty the file: until it is open nobody knows
// what it is. The error names the path, and wraps ErrFolder, ErrNotPlain or the system's.
func Open(path string, flag int) (*os.File, fs.FileInfo, error) {
	if err := NotReserved(path); err != nil {
		return nil, nil, err
	}
	// Opening alone can do something to a device, such as winding back a tape.
	info, err := os.Stat(path)
	if err == nil {
		err = plain(path, info)
	}
	if err != nil && (flag&os.O_CREATE == 0 || !errors.Is(err, fs.ErrNotExist)) {
		return nil, nil, err
	}
	f, err := os.OpenFile(path, flag|dontWait, 0o600) // for what took its place since
	if err != nil {
		return nil, nil, err
	}
	if info, err = f.Stat(); err == nil {
		err = plain(path, info)
	}
	if err != nil {
		_ = f.Close()
		return nil, nil, err
	}
	return f, info, nil
}

// plain says why a file is none.
func plain(path string, info fs.FileInfo) error {
	why := ErrNotPlain
	switch {
	case info.Mode().IsRegular():
		return nil
	case info.IsDir():
		why = ErrFolder
	}
	return &fs.PathError{Op: "open", Path: path, Err: why}
}

// Read reads a file of at most so many bytes: as many as it had when it was opened, however
// it grows. Errors are those of Open, or wrap ErrLarge.
func Read(path string, most int64) ([]byte, error) {
	f, info, err := Open(path, os.O_RDONLY)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info.Size() > most {
		return nil, fmt.Errorf("%s of %d bytes: %w", path, info.Size(), ErrLarge)
	}
	return All(f, info)
}

// All reads an open file from where it stands: no more than it had when it was opened.
func All(f *os.File, info fs.FileInfo) ([]byte, error) {
	data := make([]byte, info.Size())
	n, err := io.ReadFull(f, data)
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) { // it shrank
		err = nil
	}
	return data[:n], err
}
