package marking

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// blockSaving keeps the store from saving until the function that it returns is called: where
// its lock should be lies a folder.
func blockSaving(t *testing.T, s *stills.Store) (free func()) {
	t.Helper()
	path := s.Folder("lock")
	if err := os.RemoveAll(path); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(path, 0o700); err != nil {
		t.Fatal(err)
	}
	return func() {
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	}
}

// savings is a saver, a still to save, and what the saver told. It tells on its goroutine,
// and the tests look after Flush.
type savings struct {
	*Saver
	still *stills.Still
	waits []time.Duration
	due   func()
	said  error
}

func newSavings(t *testing.T) *savings {
	t.Helper()
	s := &savings{}
	s.Saver = NewSaver(stills.New(stills.Folders{Data: filepath.Join(t.TempDir(), "stills")}), SaverEvents{
		Soon: func(f func()) { f() }, Fail: func(err error) { s.said = err }, Saved: func() {},
		After: func(after time.Duration, f func()) { s.waits, s.due = append(s.waits, after), f },
	})
	s.still = mark(t, s.store, keep(t, s.store))
	t.Cleanup(func() {
		s.Leave(s.still)
		s.Flush()
	})
	return s
}

// try saves so many notes, and waits for it.
func (s *savings) try(count int) {
	var list []notes.Note
	for i := range count {
		list = append(list, notes.New(notes.Ring{From: ink.Pt(1, float64(i)), To: ink.Pt(90, 60), Width: 2}, ""))
	}
	s.Save(s.still, list)
	s.Flush()
}

// onDisk returns how many notes of the still lie on the disk.
func (s *savings) onDisk(t *testing.T) int {
	t.Helper()
	still, err := s.store.Open(s.still.ID)
	if err != nil {
		t.Fatal(err)
	}
	return len(still.Notes.Notes)
}

// What can't be saved is told for as long as it isn't, and tried again after a while, after a
// longer one, with the next change, and when that is asked for.
func TestUnsavedNotesAreTriedAgain(t *testing.T) {
	s := newSavings(t)
	free := blockSaving(t, s.store)
	s.try(1)
	if s.said == nil {
		t.Error("nothing is said of what is not saved")
	}
	for range 5 {
		s.due()
		s.Flush()
	}
	want := []time.Duration{2 * time.Second, 5 * time.Second, 15 * time.Second, time.Minute, time.Minute, time.Minute}
	if !slices.Equal(s.waits, want) {
		t.Fatalf("tried again after %v, want %v", s.waits, want)
	}
	free()
	s.due()
	s.Flush()
	if n := s.onDisk(t); n != 1 || s.said != nil {
		t.Errorf("free again: %d notes on the disk, and it says %v", n, s.said)
	}
	free = blockSaving(t, s.store)
	s.try(2)
	free()
	s.try(3)
	if n := s.onDisk(t); n != 3 || s.said != nil {
		t.Errorf("with the next change: %d notes on the disk, and it says %v", n, s.said)
	}
	free = blockSaving(t, s.store)
	s.try(4)
	free()
	s.Again()
	s.Flush()
	if n := s.onDisk(t); n != 4 {
		t.Errorf("asked for: %d notes on the disk", n)
	}
}

// Closing tries once more, and says what it could not save; nothing is tried by itself from
// then on.
func TestClosingTriesToSave(t *testing.T) {
	s := newSavings(t)
	free := blockSaving(t, s.store)
	s.try(1)
	if err := s.Close(); err == nil {
		t.Error("closing says nothing of what it could not save")
	}
	s.due()
	s.Flush()
	free()
	if err := s.Close(); err != nil || s.onDisk(t) != 1 || len(s.waits) != 1 {
		t.Errorf("%v; %d notes on the disk, %d tries by itself", err, s.onDisk(t), len(s.waits))
	}
}

// A still that was closed is let go of once it is saved, and taken back before with all that
// waits.
func TestTakenBack(t *testing.T) {
	s := newSavings(t)
	free := blockSaving(t, s.store)
	s.try(2)
	s.Leave(s.still)
	if s.still.Barred != nil || s.TakeBack("another") != nil {
		t.Error("it is let go of while it waits, or taken for another")
	}
	if got := s.TakeBack(s.still.ID); got != s.still || len(got.Notes.Notes) != 2 {
		t.Fatalf("taken back is %v, want the still with its two notes", got)
	}
	s.Leave(s.still)
	free()
	s.Again()
	s.Flush()
	if s.still.Barred == nil || s.TakeBack(s.still.ID) != nil || s.onDisk(t) != 2 {
		t.Error("it is not let go of once it is saved")
	}
}
