package files

import (
	"bufio"
	"io"
	"os"
)

// Disk is what changes files. Tests put one in its place that fails.
type Disk interface {
	// Mkdir makes a folder for its owner only.
	Mkdir(path string) error
	// Write makes a file for its owner only, with what write gives, and has it last. There
	// must be none of that name. What it can't finish it removes.
	Write(path string, write func(io.Writer) error) error
	// Rename gives a file or folder another name, in one step.
	Rename(from, to string) error
	// Remove removes a file or a folder with all that is in it.
	Remove(path string) error
	// Settle has the names in a folder last.
	Settle(dir string) error
}

// System is the disk.
type System struct{}

func (System) Mkdir(path string) error { return os.Mkdir(path, 0o700) }

func (System) Write(path string, write func(io.Writer) error) (err error) {
	end, err := begin(path)
	if err != nil {
		return err
	}
	defer end()
	f, err := create(path)
	if err != nil {
		return err
	}
	whole := false // not where write breaks down, either
	defer func() {
		if closed := f.Close(); err == nil {
			err = closed
		}
		if err != nil || !whole {
			_ = os.Remove(path) // the error at hand says more
		}
	}()
	b := bufio.NewWriterSize(f, 1<<16)
	if err := write(b); err != nil {
		return err
	}
	if err := b.Flush(); err != nil {
		return err
	}
	whole = true
	return f.Sync()
}

func (System) Rename(from, to string) error { return rename(from, to) }

func (System) Remove(path string) error { return os.RemoveAll(path) }

func (System) Settle(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	_ = d.Sync() // some file systems, and Windows, can't: what was there before then lasts
	return nil
}
