package quiet

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

func TestFileKeepsMessages(t *testing.T) {
	var other bytes.Buffer
	f := file{filepath.Join(t.TempDir(), "state", "desk.log"), &other}
	if _, err := os.Stat(f.path); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("there before the first message: %v", err)
	}
	for _, message := range []string{"first\n", "second\n"} {
		if n, err := f.Write([]byte(message)); n != len(message) || err != nil {
			t.Fatal(n, err)
		}
	}
	data, err := os.ReadFile(f.path)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(data), "\n")
	if len(lines) != 3 || !strings.HasSuffix(lines[0], " first") || !strings.HasSuffix(lines[1], " second") || other.Len() > 0 {
		t.Errorf("kept %q, and %q elsewhere", data, other.String())
	}
	info, err := os.Stat(f.path)
	if err != nil {
		t.Fatal(err)
	}
	if mode := info.Mode().Perm(); mode != 0o600 && runtime.GOOS != "windows" {
		t.Errorf("its mode is %o", mode)
	}
}

// However much is said, two files of the largest size are left, with the newest in them.
func TestFileIsBounded(t *testing.T) {
	f := file{filepath.Join(t.TempDir(), "desk.log"), os.Stderr}
	for i := range 40 {
		message := bytes.Repeat([]byte{'a' + byte(i%26)}, most/10)
		if i == 20 {
			message = bytes.Repeat(message, 30)
		}
		if _, err := f.Write(append(message, '\n')); err != nil {
			t.Fatal(err)
		}
	}
	files, err := os.ReadDir(filepath.Dir(f.path))
	if err != nil || len(files) != 2 {
		t.Fatal(files, err)
	}
	for _, path := range []string{f.path, f.path + ".old"} {
		data, err := os.ReadFile(path)
		if err != nil || len(data) == 0 || len(data) > most {
			t.Errorf("%s has %d bytes, error %v", filepath.Base(path), len(data), err)
		}
		if newest := byte('a' + 39%26); path == f.path && data[len(data)-2] != newest {
			t.Errorf("its last message is of %c, want %c", data[len(data)-2], newest)
		}
	}
}

func TestWhatCannotBeKeptIsSaidElsewhere(t *testing.T) {
	taken := filepath.Join(t.TempDir(), "taken")
	if err := os.WriteFile(taken, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"", filepath.Join(taken, "desk.log")} {
		var other bytes.Buffer
		f := file{path, &other}
		if _, err := f.Write([]byte("painting lost\n")); err != nil || other.String() != "painting lost\n" {
			t.Errorf("%q: said %q, error %v", path, other.String(), err)
		}
	}
}

// XDG Base Directory Specification 0.8, $XDG_STATE_HOME.
func TestPlace(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("the system has a folder of its own")
	}
	tests := []struct{ state, home, want string }{
		{"/state", "/home/p", "/state/tonedesk/desk.log"},
		{"", "/home/p", "/home/p/.local/state/tonedesk/desk.log"},
		{"state", "/home/p", "/home/p/.local/state/tonedesk/desk.log"},
		{"", "", ""},
	}
	for _, tt := range tests {
		env := map[string]string{"XDG_STATE_HOME": tt.state, "HOME": tt.home}
		if got := place(func(name string) string { return env[name] }); got != tt.want {
			t.Errorf("state %q, home %q: %q, want %q", tt.state, tt.home, got, tt.want)
		}
	}
}
