package settings

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"app.tonedesk/gui/files"
)

// keptBands reads one setting back from the file, 0 if there is no file.
func keptBands(t *testing.T, path string) int {
	t.Helper()
	data, err := os.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		return 0
	}
	if err != nil {
		t.Fatal(err)
	}
	var s struct{ Knobs struct{ Bands int } }
	if err := json.Unmarshal(data, &s); err != nil {
		t.Fatalf("%s: %v", data, err)
	}
	return s.Knobs.Bands
}

func withBands(n int) Settings {
	s := Defaults()
	return s.WithKnob("bands", float64(n))
}

func TestKeeperWaitsForQuiet(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "settings.json")
	synctest.Test(t, func(t *testing.T) {
		k := NewKeeper(path, func(err error) { t.Error(err) })
		after := func(d time.Duration) int {
			time.Sleep(d) // the bubble's clock: no time passes
			synctest.Wait()
			return keptBands(t, path)
		}
		k.Save(withBands(3))
		if got := after(keepDelay - time.Millisecond); got != 0 {
			t.Errorf("written before its time: %d", got)
		}
		k.Save(withBands(4))
		if got := after(keepDelay - time.Millisecond); got != 0 {
			t.Errorf("a change did not begin the wait anew: %d", got)
		}
		if got := after(time.Millisecond); got != 4 {
			t.Errorf("after the wait the file holds %d, want 4", got)
		}
		began := time.Now()
		for keptBands(t, path) == 4 && time.Since(began) < time.Minute { // without end, as by dragging
			k.Save(withBands(7))
			after(keepDelay / 2)
		}
		if waited := time.Since(began); waited > keepLatest+keepDelay {
			t.Errorf("endless changes were first written after %v", waited)
		}
		_ = k.Flush()
	})
}

func TestKeeperFlush(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settings.json")
	k := NewKeeper(path, func(err error) { t.Error(err) })
	if err := k.Flush(); err != nil || keptBands(t, path) != 0 {
		t.Errorf("nothing to keep: %v", err)
	}
	s := withBands(6)
	s.Region = &files.Rect{X: 1, Y: 2, Width: 30, Height: 40}
	k.Save(s)
	s.Region.Width = -1 // the caller's own from here on
	if err := k.Flush(); err != nil || keptBands(t, path) != 6 {
		t.Errorf("kept %d, %v", keptBands(t, path), err)
	}
	if got, problems, err := Load(path); err != nil || len(problems) > 0 || *got.Region != (files.Rect{X: 1, Y: 2, Width: 30, Height: 40}) {
		t.Errorf("read back %+v, %v, %v", got.Region, problems, err)
	}
	if names := fileNames(t, path); !slices.Equal(names, []string{"settings.json"}) {
		t.Errorf("left behind: %v", names)
	}
}

func TestKeeperIsPrivate(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("modes of files mean little there")
	}
	path := filepath.Join(t.TempDir(), "tonedesk", "settings.json")
	k := NewKeeper(path, nil)
	k.Save(Defaults())
	if err := k.Flush(); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]os.FileMode{path: 0o600, filepath.Dir(path): 0o700} {
		if info, err := os.Stat(name); err != nil || info.Mode().Perm() != want {
			t.Errorf("%s: %v, %v, want %v", name, info.Mode().Perm(), err, want)
		}
	}
}

func TestKeeperFollowsLinks(t *testing.T) {
	dir := t.TempDir()
	real, path := filepath.Join(dir, "real.json"), filepath.Join(dir, "settings.json")
	if err := os.WriteFile(real, []byte("{}"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(real, path); err != nil {
		t.Skip(err) // Windows without the right to make links
	}
	if info, err := os.Lstat(path); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Skip("Wine makes an empty file of a link", err)
	}
	k := NewKeeper(path, nil)
	k.Save(withBands(8))
	if err := k.Flush(); err != nil || keptBands(t, real) != 8 {
		t.Errorf("behind the link: %d, %v", keptBands(t, real), err)
	}
	if info, err := os.Lstat(path); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is a link no more: %v, %v", info, err)
	}
}

// A folder's place is taken by a file: nothing can be written. It is told once, and once
// more after it worked in between; what was to be kept is kept as soon as it can be.
func TestKeeperTellsOnce(t *testing.T) {
	blocked := filepath.Join(t.TempDir(), "folder")
	block := func() {
		_ = os.RemoveAll(blocked)
		if err := os.WriteFile(blocked, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(blocked, "settings.json")
	told := 0
	var k *Keeper
	k = NewKeeper(path, func(error) {
		told++
		k.Save(withBands(5)) // allowed from inside
	})
	block()
	for range 3 {
		k.Save(withBands(5))
		if k.Flush() == nil {
			t.Fatal("wrote into a file's inside")
		}
	}
	if told != 1 {
		t.Errorf("told %d times, want once", told)
	}
	if err := os.Remove(blocked); err != nil {
		t.Fatal(err)
	}
	if err := k.Flush(); err != nil || keptBands(t, path) != 5 {
		t.Errorf("after the trouble: kept %d, %v", keptBands(t, path), err)
	}
	block()
	k.Save(withBands(9))
	if k.Flush() == nil || told != 2 {
		t.Errorf("new trouble: told %d times in all, want 2", told)
	}
}

// Saving and flushing from everywhere at once: the file is whole at any time and ends with
// what was saved last.
func TestKeeperFromAnyGoroutine(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settings.json")
	k := NewKeeper(path, func(err error) { t.Error(err) })
	var all sync.WaitGroup
	for i := range 4 {
		all.Go(func() {
			for n := range 10 {
				k.Save(withBands(2 + (i+n)%9))
				if err := k.Flush(); err != nil {
					t.Error(err)
				}
				if data, err := os.ReadFile(path); err != nil || !json.Valid(data) {
					t.Errorf("the file holds %q, %v", data, err)
				}
			}
		})
	}
	all.Wait()
	k.Save(withBands(10))
	if err := k.Flush(); err != nil || keptBands(t, path) != 10 {
		t.Errorf("at the end: %d, %v", keptBands(t, path), err)
	}
	if names := fileNames(t, path); len(names) != 1 {
		t.Errorf("left behind: %v", names)
	}
}
