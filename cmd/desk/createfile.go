package main

import (
	"io"
	"os"
	"path/filepath"
)

// createFile writes a new file that only its owner may read. Over what is there it writes
// only if so told, and then in one step: at no time is the file half written, and if writing
// fails, the old one stays. A new file that can't be finished is taken away again.
func createFile(path string, over bool, write func(io.Writer) error) error {
	if over {
		return replaceFile(path, write)
	}
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	return finish(file, write)
}

// replaceFile writes beside path and renames.
func replaceFile(path string, write func(io.Writer) error) error {
	file, err := os.CreateTemp(filepath.Dir(path), ".desk-*") // which is 0600
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
	return nil
}

// finish writes and closes a file, and removes it if that fails.
func finish(file *os.File, write func(io.Writer) error) error {
	err := write(file)
	if closed := file.Close(); err == nil {
		err = closed
	}
	if err != nil {
		_ = os.Remove(file.Name()) // the first error counts
	}
	return err
}
