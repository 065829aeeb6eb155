//go:build unix

package quiet

import (
	"bytes"
	"path/filepath"
	"syscall"
	"testing"
)

// A pipe where the file of messages should be holds nobody up: messages go elsewhere.
func TestFileIsAPipe(t *testing.T) {
	var other bytes.Buffer
	f := file{filepath.Join(t.TempDir(), "desk.log"), &other}
	if err := syscall.Mkfifo(f.path, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Write([]byte("first\n")); err != nil || other.String() != "first\n" {
		t.Errorf("%q, %v", other.String(), err)
	}
}
