package gui

import (
	"io"
	"os"
	"path/filepath"
)

// CreateFile writes a new file that only its owner may read. Over what is there it writes
// only if so told, and then in one step: at no time is the file half written, and if writing
// fails, the old one stays. A new file that can't be finished is taken away again. What is
// written lasts through a power cut, where the system can make it.
func CreateFile(path string, over bool, write func(io.Writer) error) error {
	if over {
		return overFile(path, write)
	}
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if err := finish(file, write); err != nil {
		return err
	}
	syncFolder(filepath.Dir(path))
	return nil
}

// overFile writes beside path and then takes its place in one step.
func overFile(path string, write func(io.Writer) error) error {
	file, err := os.CreateTemp(filepath.Dir(path), ".tonedesk-*.tmp") // mode 0600
	if err != nil {
		return err
	}
	if err := finish(file, write); err != nil {
		return err
	}
	if err := os.Rename(file.Name(), path); err != nil {
		_ = os.Remove(file.Name()) // the first error counts
		return err
	}
	syncFolder(filepath.Dir(path))
	return nil
}

// finish writes and closes a file, and removes it if that fails.
func finish(file *os.File, write func(io.Writer) error) error {
	err := write(file)
	if err == nil {
		err = file.Sync()
	}
	if closed := file.Close(); err == nil {
		err = closed
	}
	if err != nil {
		_ = os.Remove(file.Name()) // the first error counts
	}
	return err
}

// syncFolder makes the new name last through a power cut, where the system can.
func syncFolder(dir string) {
	d, err := os.Open(dir)
	if err != nil {
		return
	}
	_ = d.Sync() // some file systems, and Windows, can't: the old file is then what lasts
	_ = d.Close()
}
