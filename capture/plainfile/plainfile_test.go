package plainfile

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

func TestRead(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	if err := os.WriteFile(path, []byte("12345"), 0o600); err != nil {
		t.Fatal(err)
	}
	for most, want := range map[int64]error{5: nil, 4: ErrLarge} {
		if got, err := Read(path, most); !errors.Is(err, want) || err == nil && string(got) != "12345" {
			t.Errorf("at most %d: %q, %v", most, got, err)
		}
	}
	sparse := filepath.Join(dir, "sparse")
	if err := os.WriteFile(sparse, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(sparse, 1<<40); err != nil { // no such space is taken up
		t.Skip(err) // the file system has no holes
	}
	for path, want := range map[string]error{sparse: ErrLarge, dir: ErrFolder, filepath.Join(dir, "none"): fs.ErrNotExist, os.DevNull: ErrNotPlain} {
		if _, err := Read(path, 1<<30); !errors.Is(err, want) {
			t.Errorf("%s: %v, want %v", path, err, want)
		}
	}
}

// A file that grows or shrinks while it is read is read as far as it went.
func TestAllOfAFileThatChanges(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	for size, want := range map[int64]int{10: 4, 2: 2} {
		if err := os.WriteFile(path, []byte("1234"), 0o600); err != nil {
			t.Fatal(err)
		}
		f, info, err := Open(path, os.O_RDONLY)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := os.Truncate(path, size); err != nil {
			t.Fatal(err)
		}
		if got, err := All(f, info); err != nil || !bytes.Equal(got, []byte("1234")[:want]) {
			t.Errorf("%d bytes: %q, %v", size, got, err)
		}
	}
}

// Only who asks for it makes a file, for its owner alone.
func TestOpenMakes(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	if _, _, err := Open(path, os.O_WRONLY); !errors.Is(err, fs.ErrNotExist) {
		t.Error(err)
	}
	f, info, err := Open(path, os.O_WRONLY|os.O_CREATE)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if dontWait != 0 && info.Mode() != 0o600 {
		t.Errorf("mode %v", info.Mode())
	}
}
