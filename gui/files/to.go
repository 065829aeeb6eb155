package files

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"app.tonedesk/capture/plainfile"
)

var (
	// ErrInput: the file to write is one that is read, or written too.
	ErrInput = errors.New("is an input")
	// ErrDangling: what is to be written over is a link to no file.
	ErrDangling = errors.New("link to no file")
	// ErrNoHome: the system does not say where the user's own folders are.
	ErrNoHome = errors.New("no home folder")
)

// To is a file of the user's choice, to be written. Whatever is exported goes through here.
type To struct {
	Path string
	Over bool     // also over a file that is there, which keeps its permissions; a link stays one
	Not  []string // paths of what is read, and of what is written beside: it is none of these
}

// Check says why the file can't be written, as far as a look tells. The error wraps ErrInput,
// ErrDangling, fs.ErrExist, plainfile.ErrFolder, plainfile.ErrNotPlain or the system's. That
// there is no such file yet is no error, nor that there is no such folder: writing says so.
func (t To) Check() error {
	_, _, err := t.place()
	return err
}

// Write writes the file, whole or not at all, and never over anything that Check refuses.
func (t To) Write(write func(io.Writer) error) error {
	path, there, err := t.place()
	switch {
	case err != nil:
		return err
	case t.Over:
		err = put(System{}, path, there, write)
	default:
		err = System{}.Write(path, write)
	}
	if err == nil {
		_ = System{}.Settle(filepath.Dir(path)) // some folders can be written, not opened
	}
	return err
}

// Open opens the file, empty, to be written bit by bit. The errors are those of Check.
func (t To) Open() (*os.File, error) {
	path, _, err := t.place()
	if err != nil {
		return nil, err
	}
	f, _, err := plainfile.Open(path, os.O_CREATE|os.O_WRONLY)
	if err != nil {
		return nil, err
	}
	if err := f.Truncate(0); err != nil {
		_ = f.Close()
		return nil, err
	}
	return f, nil
}

// place returns where the file lies behind all links, and what is there; nil for nothing.
func (t To) place() (path string, there fs.FileInfo, err error) {
	if err := plainfile.NotReserved(t.Path); err != nil {
		return "", nil, err
	}
	there, err = os.Stat(t.Path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Lstat(t.Path); err == nil {
			return "", nil, t.linked()
		}
		return t.Path, nil, nil
	case err != nil:
		return "", nil, err
	case slices.ContainsFunc(t.Not, func(not string) bool { return Same(t.Path, not) }):
		err = ErrInput
	case there.IsDir():
		err = plainfile.ErrFolder
	case !there.Mode().IsRegular():
		err = plainfile.ErrNotPlain
	case !t.Over:
		err = fs.ErrExist
	}
	if err != nil {
		return "", nil, t.failed(err)
	}
	path, err = filepath.EvalSymlinks(t.Path)
	return path, there, err
}

// linked says what a link to no file means.
func (t To) linked() error {
	if t.Over {
		return t.failed(ErrDangling)
	}
	return t.failed(fs.ErrExist)
}

func (t To) failed(err error) error { return &fs.PathError{Op: "write", Path: t.Path, Err: err} }

// Same reports whether two paths are those of one file, which need not be there, by whatever
// links they lead to it.
func Same(a, b string) bool {
	infoA, errA := os.Stat(a)
	infoB, errB := os.Stat(b)
	if errA == nil || errB == nil {
		return errA == nil && errB == nil && os.SameFile(infoA, infoB)
	}
	dirA, nameA := filepath.Split(a)
	dirB, nameB := filepath.Split(b)
	infoA, errA = os.Stat(dirA + ".") // as the system has it: "link/.." need not be "."
	infoB, errB = os.Stat(dirB + ".")
	return nameA == nameB && (a == b || errA == nil && errB == nil && os.SameFile(infoA, infoB))
}
