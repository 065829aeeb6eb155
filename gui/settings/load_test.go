package settings

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"
)

// isErr is errors.Is, with nil only for nil.
func isErr(err, want error) bool { return err == want || want != nil && errors.Is(err, want) }

// settingsFile writes a settings file into a folder of the test's own.
func settingsFile(t testing.TB, content []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "settings.json")
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// fileNames lists a file's folder.
func fileNames(t testing.TB, path string) []string {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestSettingsPathIsTheUsers(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"XDG_CONFIG_HOME", "AppData", "HOME"} { // as os.UserConfigDir has it
		t.Setenv(name, dir)
	}
	path, err := Path()
	if err != nil || !strings.HasPrefix(path, dir) || !strings.HasSuffix(path, filepath.Join("tonedesk", "settings.json")) {
		t.Errorf("path %q, %v", path, err)
	}
}

func TestLoadMissingSettings(t *testing.T) {
	path := filepath.Join(t.TempDir(), "none", "settings.json")
	s, problems, err := Load(path)
	if err != nil || problems != nil || !reflect.DeepEqual(s, Defaults()) {
		t.Errorf("got %+v, %v, %v", s, problems, err)
	}
}

func TestLoadDamagedSettings(t *testing.T) {
	damaged := []byte(`{"ground": "lig`)
	path := settingsFile(t, damaged)
	now := time.Date(2026, 3, 4, 5, 6, 7, 0, time.UTC)
	for i, want := range []string{"settings.json.damaged-20260304-050607", "settings.json.damaged-20260304-050607-2"} {
		if i > 0 { // the same again within the second: the first stays
			if err := os.WriteFile(path, []byte("else"), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		s, problems, err := loadSettings(path, now)
		if err != nil || !reflect.DeepEqual(s, Defaults()) {
			t.Fatalf("got %+v, %v", s, err)
		}
		if len(problems) != 1 || !strings.Contains(problems[0], want) {
			t.Errorf("problems %q, want one that names %s", problems, want)
		}
	}
	kept, err := os.ReadFile(path + ".damaged-20260304-050607")
	if err != nil || !bytes.Equal(kept, damaged) {
		t.Errorf("set aside %q, %v", kept, err)
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("the damaged file is still in its place")
	}
}

func TestLoadNewerSettings(t *testing.T) {
	newer := []byte(`{"version": 99, "ground": "light", "more": true}`)
	path := settingsFile(t, newer)
	s, problems, err := Load(path)
	if !errors.Is(err, ErrNewer) || len(problems) != 1 || !reflect.DeepEqual(s, Defaults()) {
		t.Errorf("got %+v, %q, %v", s, problems, err)
	}
	told := 0
	k := NewKeeper(path, func(error) { told++ })
	for range 3 {
		k.Save(s)
		if err := k.Flush(); !errors.Is(err, ErrNewer) {
			t.Errorf("kept over a newer file: %v", err)
		}
	}
	if got, err := os.ReadFile(path); err != nil || !bytes.Equal(got, newer) {
		t.Errorf("the newer file is now %q, %v", got, err)
	}
	if told != 1 {
		t.Errorf("told %d times, want once", told)
	}
}

// A folder in the file's place can't be read as settings, whoever asks; it must stay too.
func TestLoadUnreadableSettings(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settings.json")
	if err := os.MkdirAll(filepath.Join(path, "in"), 0o700); err != nil {
		t.Fatal(err)
	}
	s, problems, err := Load(path)
	if err == nil || len(problems) != 0 || !reflect.DeepEqual(s, Defaults()) {
		t.Errorf("got %+v, %q, %v", s, problems, err)
	}
	k := NewKeeper(path, nil)
	k.Save(s)
	if err := k.Flush(); err == nil {
		t.Error("kept over what could not be read")
	}
	if _, err := os.Stat(filepath.Join(path, "in")); err != nil {
		t.Error(err)
	}
}

// Whatever the file holds: the settings are valid, nothing of the file is lost, a newer
// file is untouched, and what is kept then reads back the same.
func FuzzLoadSettings(f *testing.F) {
	good, err := Defaults().encode()
	if err != nil {
		f.Fatal(err)
	}
	for _, seed := range [][]byte{
		good, nil, []byte(`{}`), []byte(`null`), []byte(`{"version":7}`), []byte(`{"region":{"x":1,"width":-1}}`),
		[]byte(`{"remembered":[{"picture":"/a.png","width":9,"spots":[{"x":1,"y":2,"area":{"x":0,"y":0,"width":3,"height":5},"moved":true}],"by_hand":[{"light":{"x":1},"shadow":{}}],"local_colours":[{"kept":true,"light":{"colour":"#102030"},"shadow":{"y":4,"colour":"#fff"}}],"left_out":[{"x":1,"y":1,"width":1,"height":1}],"left_out_colours":[{"x":1,"y":1,"colour":"#000"}],"borders":[3,40],"target":"/b.png"},{"window":{"title":"Heron","class":"Painter"},"target_still":"x"},7]}`),
		[]byte(`{"per_second":-0,"view":"\u0000","picture":"\ud800"}`), []byte(`{"version":1,"version":9}`), good[:40],
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, content []byte) {
		path := settingsFile(t, content)
		s, problems, err := Load(path)
		if changed := s.confine(); len(changed) > 0 {
			t.Fatalf("invalid: %v", changed)
		}
		if !isSomewhere(t, path, content) {
			t.Fatal("what the file held is gone")
		}
		for _, p := range problems {
			if strings.ContainsAny(p, "\n\x00") || !strings.HasSuffix(p, ".") {
				t.Errorf("problem %q is not one sentence", p)
			}
		}
		k := NewKeeper(path, nil)
		k.Save(s)
		if flushErr := k.Flush(); (flushErr != nil) != (err != nil) {
			t.Fatalf("loaded with %v, kept with %v", err, flushErr)
		}
		if err != nil {
			return
		}
		again, problems, err := Load(path)
		if err != nil || len(problems) > 0 {
			t.Fatalf("what was kept reads back with %v, %v", problems, err)
		}
		a, _ := s.encode()
		b, _ := again.encode()
		if !bytes.Equal(a, b) {
			t.Errorf("kept %s, read back %s", a, b)
		}
	})
}

// isSomewhere reports whether a file in the folder of path holds content.
func isSomewhere(t *testing.T, path string, content []byte) bool {
	t.Helper()
	for _, name := range fileNames(t, path) {
		if b, err := os.ReadFile(filepath.Join(filepath.Dir(path), name)); err == nil && bytes.Equal(b, content) {
			return true
		}
	}
	return false
}
