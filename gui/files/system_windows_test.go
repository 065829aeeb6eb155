package files

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// A file that another program has open for a moment is replaced once it lets go; one that stays open
// stays as it is.
func TestReplaceWaitsForOthers(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	if err := Replace(System{}, path, Bytes([]byte("old"))); err != nil {
		t.Fatal(err)
	}
	for _, letsGo := range []bool{false, true} {
		other, err := os.Open(path) // as Go opens it, it can't be replaced meanwhile
		if err != nil {
			t.Fatal(err)
		}
		closed := make(chan error, 1)
		if letsGo {
			time.AfterFunc(renameMost/4, func() { closed <- other.Close() })
		}
		err = Replace(System{}, path, Bytes([]byte("new")))
		if letsGo {
			err = errors.Join(err, <-closed)
		}
		if letsGo != (err == nil) {
			t.Errorf("lets go %v: %v", letsGo, err)
		}
		_ = other.Close()
		whole(t, path, map[bool]string{false: "old", true: "new"}[letsGo])
	}
}
