package gui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2/storage"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// Choosing a file does nothing to it, whether it is there or not, before something is
// written; then it is.
func TestFilesWaitForWriting(t *testing.T) {
	newTestDesk(t, settings.Defaults())
	waitForWriting()
	waitForWriting() // once is enough
	old, fresh := filepath.Join(t.TempDir(), "old.txt"), filepath.Join(t.TempDir(), "new.txt")
	if err := os.WriteFile(old, []byte("kept"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{old, fresh} {
		w, err := storage.Writer(storage.NewFileURI(path))
		if err != nil || w.URI().Path() != path || w.Close() != nil {
			t.Fatalf("choosing %s: %v", path, err)
		}
	}
	if b, err := os.ReadFile(old); string(b) != "kept" {
		t.Errorf("the file that was there holds %q, %v", b, err)
	}
	if _, err := os.Stat(fresh); !os.IsNotExist(err) {
		t.Errorf("the new file: %v", err)
	}
	w, err := storage.Writer(storage.NewFileURI(fresh))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write([]byte("new")); err != nil || w.Close() != nil {
		t.Errorf("writing: %v", err)
	}
	if b, err := os.ReadFile(fresh); string(b) != "new" {
		t.Errorf("what was written is %q, %v", b, err)
	}
}

// The picture that is read, and the target, by whatever name, are never written over.
func TestReadsFile(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	dir := t.TempDir()
	path := func(name string) string { return filepath.Join(dir, name) }
	for _, name := range []string{"picture.png", "target.png", "other.png"} {
		if err := os.WriteFile(path(name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink(path("picture.png"), path("link.png")); err != nil {
		t.Fatal(err)
	}
	d.setup.Source = setup.Source{Kind: setup.SourcePicture, Path: path("picture.png")}
	d.setup.Target = &setup.Target{Path: path("target.png")}
	for name, want := range map[string]bool{"picture.png": true, "link.png": true, "target.png": true, "other.png": false, "none.png": false} {
		if got := d.reads(path(name)); got != want {
			t.Errorf("%s is read: %v, want %v", name, got, want)
		}
	}
}
