//go:build !windows

package console

import (
	"os"
	"path/filepath"
	"testing"
)

// A pipe is read by who opened it; the null device and a log, as those have who started the program by
// a click, are not.
func TestHeard(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer null.Close()
	log, err := os.Create(filepath.Join(t.TempDir(), "log"))
	if err != nil {
		t.Fatal(err)
	}
	defer log.Close()
	if !heard(w) || heard(null) || heard(log) {
		t.Errorf("heard at a pipe %v, the null device %v, a log %v", heard(w), heard(null), heard(log))
	}
	w.Close()
	if heard(w) {
		t.Error("heard where there is nothing")
	}
}
