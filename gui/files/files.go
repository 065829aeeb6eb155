package files

import (
	"crypto/rand"
	"io"
	"io/fs"
	"path/filepath"
)

// Replace writes a file, in one step over what is there: whoever reads it finds the old or the
// new, whatever happens. It fails too where the folder can't be settled.
func Replace(d Disk, path string, write func(io.Writer) error) error {
	if err := put(d, path, nil, write); err != nil {
		return err
	}
	return d.Settle(filepath.Dir(path))
}

// put writes beside path and then takes its place, with the permissions of what is there
// where that isn't nil.
func put(d Disk, path string, there fs.FileInfo, write func(io.Writer) error) error {
	dir, _ := filepath.Split(path) // as it stands: "link/.." need not be "."
	beside := dir + besideBegins + rand.Text() + besideEnds
	end, err := begin(beside)
	if err != nil {
		return err
	}
	defer end()
	err = d.Write(beside, write)
	if err == nil && there != nil {
		err = like(beside, there)
	}
	if err == nil {
		err = d.Rename(beside, path)
	}
	if err != nil {
		_ = d.Remove(beside) // the error at hand says more
	}
	return err
}

// Bytes returns what writes b.
func Bytes(b []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(b)
		return err
	}
}
