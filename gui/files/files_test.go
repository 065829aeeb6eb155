package files

import (
	"errors"
	"image"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
	"time"
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

// What breaks down while it writes leaves the old one whole, or nothing.
func TestWritingBreaksDown(t *testing.T) {
	for _, over := range []bool{false, true} {
		dir := t.TempDir()
		func() {
			defer func() { _ = recover() }()
			_ = To{Path: filepath.Join(dir, "a"), Over: over}.Write(func(w io.Writer) error {
				_, _ = w.Write(make([]byte, 1<<20))
				panic("a mistake")
			})
		}()
		if all, err := os.ReadDir(dir); err != nil || len(all) != 0 {
			t.Errorf("over %v: left behind %v, %v", over, all, err)
		}
	}
}

// A program that ends takes away what it is writing, and writes nothing more. That lasts, so
// it is a program of its own that does it.
func TestAbandon(t *testing.T) {
	const where = "TONEDESK_TEST_ABANDON"
	if dir := os.Getenv(where); dir != "" {
		ends := func(w io.Writer) error {
			_, err := w.Write(make([]byte, 1<<20))
			Abandon()
			return err
		}
		_ = To{Path: filepath.Join(dir, "old"), Over: true}.Write(func(w io.Writer) error {
			return errors.Join(broken(w), To{Path: filepath.Join(dir, "new")}.Write(ends))
		})
		if err := (To{Path: filepath.Join(dir, "late")}).Write(Bytes(nil)); !errors.Is(err, os.ErrClosed) {
			t.Errorf("after the end it writes: %v", err)
		}
		os.Exit(3) // as at a signal: nothing else runs
	}
	dir := t.TempDir()
	if err := (To{Path: filepath.Join(dir, "old")}).Write(Bytes([]byte("old"))); err != nil {
		t.Fatal(err)
	}
	again := exec.Command(os.Args[0], "-test.run=^TestAbandon$")
	again.Env = append(again.Environ(), where+"="+dir)
	if out, err := again.CombinedOutput(); again.ProcessState.ExitCode() != 3 {
		t.Fatalf("%v\n%s", err, out)
	}
	whole(t, filepath.Join(dir, "old"), "old")
}

// What ended programs left half written goes, once it is old, and nothing else.
func TestSweep(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{".tonedesk-A.tmp", ".tonedesk-A", "still.json", ".other-A.tmp"} {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(filepath.Join(dir, ".tonedesk-B.tmp"), 0o700); err != nil {
		t.Fatal(err)
	}
	for _, sweep := range []struct {
		age  time.Duration
		left int
	}{{time.Hour, 5}, {0, 4}} {
		Sweep(dir, sweep.age)
		if all, err := os.ReadDir(dir); err != nil || len(all) != sweep.left {
			t.Errorf("older than %v: left are %v, %v", sweep.age, all, err)
		}
	}
	if _, err := os.Stat(filepath.Join(dir, ".tonedesk-A.tmp")); !errors.Is(err, fs.ErrNotExist) {
		t.Error("the old one is there")
	}
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
