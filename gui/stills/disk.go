package stills

import (
	"bufio"
	"io"
	"os"
	"path/filepath"
)

// disk is what changes files. Tests put one in its place that fails.
type disk interface {
	// Mkdir makes a folder for its owner only.
	Mkdir(path string) error
	// Write makes a file for its owner only, with what write gives, and has it last. There
	// must be none of that name.
	Write(path string, write func(io.Writer) error) error
	// Rename gives a file or folder another name, in one step.
	Rename(from, to string) error
	// Remove removes a file or a folder with all that is in it.
	Remove(path string) error
	// Settle has the names in a folder last.
	Settle(dir string) error
}

// realDisk is the disk.
type realDisk struct{}

func (realDisk) Mkdir(path string) error { return os.Mkdir(path, 0o700) }

func (realDisk) Write(path string, write func(io.Writer) error) (err error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	defer func() {
		if closed := f.Close(); err == nil {
			err = closed
		}
	}()
	b := bufio.NewWriterSize(f, 1<<16)
	if err := write(b); err != nil {
		return err
	}
	if err := b.Flush(); err != nil {
		return err
	}
	return f.Sync()
}

func (realDisk) Rename(from, to string) error { return os.Rename(from, to) }

func (realDisk) Remove(path string) error { return os.RemoveAll(path) }

func (realDisk) Settle(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	_ = d.Sync() // some file systems, and Windows, can't: what was there before then lasts
	return nil
}

// replace puts data in the place of the file at path, in one step: whoever reads it finds
// the old or the new, whatever happens.
func replace(d disk, path string, data []byte) (err error) {
	dir, name := filepath.Split(path)
	beside := filepath.Join(dir, "."+name+"-"+unique())
	defer func() {
		if err != nil {
			_ = d.Remove(beside) // the error at hand says more
		}
	}()
	err = d.Write(beside, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
	if err != nil {
		return err
	}
	if err := d.Rename(beside, path); err != nil {
		return err
	}
	return d.Settle(filepath.Clean(dir))
}
