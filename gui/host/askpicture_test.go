//go:build unix

package host

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"fyne.io/fyne/v2/storage"
)

// The dialog offers plain files alone: it opens what is chosen, and a pipe would hang it.
func TestOnlyFilesAreOffered(t *testing.T) {
	dir := t.TempDir()
	for name, want := range map[string]bool{"a.png": true, "a.txt": false, "pipe.png": false} {
		path := filepath.Join(dir, name)
		err := os.WriteFile(path, nil, 0o600)
		if name == "pipe.png" {
			_ = os.Remove(path)
			err = syscall.Mkfifo(path, 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
		f := pictureFilter{storage.NewExtensionFileFilter(pictureEndings)}
		if got := f.Matches(storage.NewFileURI(path)); got != want {
			t.Errorf("%s: %v", name, got)
		}
	}
}
