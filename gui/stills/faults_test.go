package stills

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/files"
)

// failing is a disk that fails: call number at, or, if it is broken then, that and all that
// follow. It writes half of a file before it fails. It notes what it was asked.
type failing struct {
	files.System
	at, calls int
	broken    bool
	asked     []string
}

var errFull = &filepathError{syscall.ENOSPC}

type filepathError struct{ error }

func (e *filepathError) Unwrap() error { return e.error }

func (f *failing) fails(what, path string) bool {
	f.calls++
	f.asked = append(f.asked, what+" "+path)
	return f.calls == f.at || f.broken && f.calls > f.at
}

func (f *failing) Mkdir(path string) error {
	if f.fails("mkdir", path) {
		return errFull
	}
	return f.System.Mkdir(path)
}

func (f *failing) Write(path string, write func(io.Writer) error) error {
	if !f.fails("write", path) {
		return f.System.Write(path, write)
	}
	var whole bytes.Buffer
	_ = write(&whole)
	_ = os.WriteFile(path, whole.Bytes()[:min(200, whole.Len())], 0o600)
	return errFull
}

func (f *failing) Rename(from, to string) error {
	if f.fails("rename", from) {
		return errFull
	}
	return f.System.Rename(from, to)
}

func (f *failing) Remove(path string) error {
	if f.fails("remove", path) {
		return errFull
	}
	return f.System.Remove(path)
}

func (f *failing) Settle(dir string) error {
	if f.fails("settle", dir) {
		return errFull
	}
	return f.System.Settle(dir)
}

// deeds are the ways to change stills, on one that is there with three notes.
var deeds = map[string]func(s *Store, id string) error{
	"keep": func(s *Store, _ string) error {
		_, err := s.Keep(noise(9), metaFor(9), notesFor(1))
		return err
	},
	"save notes": func(s *Store, id string) error {
		still, err := s.Mark(id)
		if err != nil {
			return err
		}
		defer still.Close()
		return s.SaveNotes(still, append(still.Notes.Notes, notesFor(1)...))
	},
	"rename": func(s *Store, id string) error { return s.Rename(id, "1") },
	"delete and restore": func(s *Store, id string) error {
		if err := s.Delete(id); err != nil {
			return err
		}
		return s.Restore(id)
	},
	"remove another for good": func(s *Store, _ string) error {
		c, err := s.Over(0)
		if err != nil {
			return err
		}
		_, err = s.Clear(c)
		return err
	},
}

// Whichever step of whatever is done fails, once or from there on: what was kept before is
// whole, in its place or in the trash, what was new is whole or not there, the error says
// why, and the next try does it.
func TestEveryStepMayFail(t *testing.T) {
	lawtest.SkipRaced(t)
	for name, do := range deeds {
		for _, broken := range []bool{false, true} {
			for at := 1; ; at++ {
				s := storeAt(t)
				keep(t, s, 0)
				id := keep(t, s, 1, notesFor(3)...)
				bad := &failing{at: at, broken: broken}
				err := do(&Store{folders: s.folders, disk: bad, known: map[string]*Entry{}}, id)
				if bad.calls < at {
					break // every step has had its turn
				}
				if err != nil && !errors.Is(err, syscall.ENOSPC) {
					t.Errorf("%s, step %d: %v does not say why", name, at, err)
				}
				whole(t, New(s.folders), id)
				if err := do(New(s.folders), id); err != nil {
					t.Errorf("%s after step %d: %v", name, at, err)
				}
			}
		}
	}
}

// whole fails unless still id is whole, there or in the trash, from where it is restored,
// and all others are.
func whole(t *testing.T, s *Store, id string) {
	t.Helper()
	list, problems, err := s.List()
	if err != nil || len(problems) > 0 {
		t.Fatalf("%v, %v", problems, err)
	}
	if !slices.ContainsFunc(list, func(e Entry) bool { return e.ID == id }) {
		if err := s.Restore(id); err != nil {
			t.Fatal(err)
		}
	}
	checkStill(t, s, id, 1, 3)
	for _, e := range list {
		if _, err := s.Open(e.ID); err != nil {
			t.Fatal(err)
		}
	}
}

// Nothing gets its name before what it names has been made to last: a folder's files are
// written (which syncs them) and the folder settled before it is renamed, and the folder
// above is settled after.
func TestOrderOfSteps(t *testing.T) {
	s := storeAt(t)
	log := &failing{}
	s.disk = log
	id := keep(t, s, 1, notesFor(1)...)
	making := filepath.Join(s.folders.Data, makingDir+id)
	want := []string{
		"mkdir " + making, "write " + filepath.Join(making, pictureFile), "write " + filepath.Join(making, notesFile),
		"write " + filepath.Join(making, metaName), "settle " + making, "rename " + making, "settle " + s.folders.Data,
	}
	if !slices.Equal(log.asked, want) {
		t.Errorf("%s\nwant\n%s", strings.Join(log.asked, "\n"), strings.Join(want, "\n"))
	}
}

// What a killed program left half made is cleared away when it is old; what another program
// is making is left alone.
func TestSweep(t *testing.T) {
	s := storeAt(t)
	keep(t, s, 1)
	d := files.System{}
	old, young := filepath.Join(s.folders.Data, makingDir+"a"), filepath.Join(s.folders.Data, makingDir+"b")
	going, strange := filepath.Join(s.folders.Data, goingDir+"c"), filepath.Join(s.folders.Data, "my own folder")
	for _, dir := range []string{old, young, going, strange} {
		if err := d.Mkdir(dir); err != nil {
			t.Fatal(err)
		}
	}
	if err := age(old, 2*leftAlone); err != nil {
		t.Fatal(err)
	}
	ids(t, s)
	for dir, want := range map[string]bool{old: false, young: true, going: false, strange: true} {
		if got := stampOf(dir) != (stamp{}); got != want {
			t.Errorf("%s is there: %v", dir, got)
		}
	}
}
