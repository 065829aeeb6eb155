package files

import (
	"crypto/rand"
	"io"
	"path/filepath"
)

// Create writes a new file. Over what is there it writes only if so told, and then in one
// step; else the error wraps fs.ErrExist.
func Create(path string, over bool, write func(io.Writer) error) (err error) {
	if over {
		err = put(System{}, path, write)
	} else {
		err = System{}.Write(path, write)
	}
	if err == nil {
		_ = System{}.Settle(filepath.Dir(path)) // some folders can be written, not opened
	}
	return err
}

// Replace writes a file, in one step over what is there: whoever reads it finds the old or the
// new, whatever happens. It fails too where the folder can't be settled.
func Replace(d Disk, path string, write func(io.Writer) error) error {
	if err := put(d, path, write); err != nil {
		return err
	}
	return d.Settle(filepath.Dir(path))
}

// put writes beside path and then takes its place.
func put(d Disk, path string, write func(io.Writer) error) error {
	beside := filepath.Join(filepath.Dir(path), besideBegins+rand.Text()+besideEnds)
	end, err := begin(beside)
	if err != nil {
		return err
	}
	defer end()
	err = d.Write(beside, write)
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
