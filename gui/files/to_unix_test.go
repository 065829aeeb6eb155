//go:build unix

package files

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"app.tonedesk/capture/plainfile"
)

// What is no plain file is refused, at once, and stays.
func TestToRefusesWhatIsNoFile(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{pipe, os.DevNull} {
		to := To{Path: path, Over: true}
		_, err := to.Open()
		for _, err := range []error{err, to.Check(), to.Write(Bytes(nil))} {
			if !errors.Is(err, plainfile.ErrNotPlain) {
				t.Errorf("%s: %v", path, err)
			}
		}
		if info, err := os.Lstat(path); err != nil || info.Mode().IsRegular() {
			t.Errorf("%s became %v, %v", path, info, err)
		}
	}
}
