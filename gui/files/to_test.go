package files

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"app.tonedesk/capture/plainfile"
)

// links makes a file "in" with a symbolic and a hard link to it, a link to no file, and two
// names of one folder. Without links there is nothing to test.
func links(t *testing.T) (dir string) {
	t.Helper()
	dir = t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	if err := errors.Join(
		os.WriteFile(at("in"), []byte("in"), 0o600), os.Mkdir(at("folder"), 0o700), os.WriteFile(at("old"), []byte("old"), 0o600),
		os.Link(at("in"), at("hard")), os.Symlink(at("in"), at("soft")), os.Symlink("soft", at("soft2")), os.Symlink(at("old"), at("softold")),
		os.Symlink(at("none"), at("dangling")), os.Symlink(at("folder"), at("linked")),
	); err != nil {
		t.Skip(err) // Windows without the right to make links
	}
	if info, err := os.Lstat(at("soft")); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Skip("Wine makes an empty file of a link", err)
	}
	return dir
}

func TestToNeverOverWhatIsRead(t *testing.T) {
	dir := links(t)
	for name, want := range map[string]error{
		"in": ErrInput, "hard": ErrInput, "soft": ErrInput, "soft2": ErrInput, "folder/../in": ErrInput,
		"folder": plainfile.ErrFolder, "linked": plainfile.ErrFolder, "dangling": ErrDangling,
	} {
		to := To{dir + "/" + name, true, []string{filepath.Join(dir, "in")}}
		if err := to.Write(Bytes([]byte("new"))); !errors.Is(err, want) {
			t.Errorf("%s: %v, want %v", name, err, want)
		}
		if f, err := to.Open(); !errors.Is(err, want) {
			t.Errorf("%s: opened %v, %v, want %v", name, f, err, want)
		}
	}
	if text, err := os.ReadFile(filepath.Join(dir, "in")); string(text) != "in" {
		t.Errorf("what is read holds %q, %v", text, err)
	}
	for _, name := range []string{"old", "dangling", "softold"} {
		if err := (To{Path: filepath.Join(dir, name)}).Write(Bytes([]byte("new"))); !errors.Is(err, fs.ErrExist) {
			t.Errorf("not told to write over %s: %v", name, err)
		}
	}
}

// What is written over keeps its permissions, and a link to it stays a link.
func TestToKeepsPermissions(t *testing.T) {
	dir := links(t)
	old, link := filepath.Join(dir, "old"), filepath.Join(dir, "softold")
	for _, mode := range []fs.FileMode{0o644, 0o640, 0o600, 0o755} {
		if err := os.Chmod(old, mode); err != nil {
			t.Fatal(err)
		}
		if err := (To{Path: link, Over: true}).Write(Bytes([]byte(mode.String()))); err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(old)
		info, errInfo := os.Stat(old)
		if errors.Join(err, errInfo) != nil || string(text) != mode.String() || info.Mode() != mode && runtime.GOOS != "windows" {
			t.Errorf("%v: %q, %v, %v", mode, text, info, errors.Join(err, errInfo))
		}
		if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
			t.Errorf("the link became %v, %v", info.Mode(), err)
		}
	}
}

func TestToOpen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	for range 2 { // the second time over what the first wrote
		f, err := To{Path: path, Over: true}.Open()
		if err != nil {
			t.Fatal(err)
		}
		_, err = f.WriteString("line\n")
		if err := errors.Join(err, f.Close()); err != nil {
			t.Fatal(err)
		}
		whole(t, path, "line\n")
	}
	if _, err := (To{Path: path}).Open(); !errors.Is(err, fs.ErrExist) {
		t.Error(err)
	}
}

func TestSame(t *testing.T) {
	dir := links(t)
	for _, tt := range []struct {
		a, b string
		want bool
	}{
		{"in", "in", true}, {"in", "hard", true}, {"soft", "hard", true}, {"in", "old", false},
		{"new", "new", true}, {"new", "./new", true}, {"folder/new", "linked/new", true}, {"linked/../new", "new", true},
		{"new", "new2", false}, {"new", "folder/new", false}, {"in", "new", false},
	} {
		if got := Same(dir+"/"+tt.a, dir+"/"+tt.b); got != tt.want {
			t.Errorf("%s and %s: %v", tt.a, tt.b, got)
		}
	}
}
