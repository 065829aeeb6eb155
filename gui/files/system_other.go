//go:build !windows

package files

import "os"

// create makes a new file for its owner alone.
func create(path string) (*os.File, error) {
	return os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
}

// rename gives a file or folder another name, in one step.
func rename(from, to string) error { return os.Rename(from, to) }
