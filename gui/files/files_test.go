package files

import (
	"errors"
	"image"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

var errWrite = errors.New("nothing more to write")

// broken gives some bytes, and then fails.
func broken(w io.Writer) error {
	_, err := w.Write(make([]byte, 1<<20))
	return errors.Join(err, errWrite)
}

// whole fails unless a folder holds one file, the owner's alone, with a text.
func whole(t *testing.T, path, want string) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil || string(text) != want {
		t.Errorf("%s holds %q, %v, want %q", path, text, err, want)
	}
	if info, err := os.Stat(path); err == nil && info.Mode().Perm() != 0o600 && runtime.GOOS != "windows" {
		t.Errorf("%s has mode %v", path, info.Mode())
	}
	if all, err := os.ReadDir(filepath.Dir(path)); err != nil || len(all) != 1 {
		t.Errorf("beside it lie %v, %v", all, err)
	}
}

// A new file goes over an old one only if so told; what can't be finished leaves the old one
// whole, or nothing.
func TestWrite(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	for _, over := range []bool{false, true} {
		if err := (To{Path: path, Over: over}).Write(broken); !errors.Is(err, errWrite) {
			t.Errorf("over %v: %v", over, err)
		}
		if all, err := os.ReadDir(filepath.Dir(path)); err != nil || len(all) != 0 {
			t.Errorf("over %v: left behind %v, %v", over, all, err)
		}
	}
	if err := (To{Path: path}).Write(Bytes([]byte("old"))); err != nil {
		t.Fatal(err)
	}
	whole(t, path, "old")
	if err := (To{Path: path}).Write(Bytes([]byte("new"))); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over an old one, not told to: %v", err)
	}
	over := To{Path: path, Over: true}
	if err := over.Write(broken); !errors.Is(err, errWrite) {
		t.Error(err)
	}
	whole(t, path, "old")
	if err := over.Write(Bytes([]byte("new"))); err != nil {
		t.Fatal(err)
	}
	whole(t, path, "new")
}

// deaf is a disk that can't settle a folder, and can't rename if so told.
type deaf struct {
	System
	stuck bool
}

func (deaf) Settle(string) error { return errWrite }

func (d deaf) Rename(from, to string) error {
	if d.stuck {
		return errWrite
	}
	return d.System.Rename(from, to)
}

// A file that did not get its name leaves nothing behind; one that did, in a folder that can't
// be settled, is whole, and the error says so.
func TestReplaceFails(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	if err := Replace(System{}, path, Bytes([]byte("old"))); err != nil {
		t.Fatal(err)
	}
	for _, d := range []deaf{{stuck: true}, {}} {
		if err := Replace(d, path, Bytes([]byte("new"))); !errors.Is(err, errWrite) {
			t.Error(err)
		}
		whole(t, path, map[bool]string{true: "old", false: "new"}[d.stuck])
	}
}

func TestRect(t *testing.T) {
	r := image.Rect(-3, 4, 10, 20)
	if got := new(RectOf(r)).Rectangle(); got != r {
		t.Errorf("%v became %v", r, got)
	}
	if got := (*Rect)(nil).Rectangle(); !got.Empty() {
		t.Errorf("no rectangle became %v", got)
	}
}
