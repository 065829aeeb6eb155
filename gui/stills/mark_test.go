package stills

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// childMarks names, in the environment of a copy of this test program, the still that it
// marks until it is killed, in the folder that childFolder names.
const childMarks = childFolder + "_MARKS"

// mark opens a still to mark it, and fails unless it may be, or not.
func mark(t *testing.T, s *Store, id string, barred error) *Still {
	t.Helper()
	still, err := s.Mark(id)
	if err != nil {
		t.Fatal(err)
	}
	if !errors.Is(still.Barred, barred) {
		t.Fatalf("the still is barred by %v, want %v", still.Barred, barred)
	}
	return still
}

// barredFrom fails unless a window that only reads a still can change nothing that another
// marked on it.
func barredFrom(t *testing.T, s *Store, still *Still) {
	t.Helper()
	if err := s.SaveNotes(still, nil); !errors.Is(err, ErrHeld) {
		t.Errorf("saving gives %v", err)
	}
	if err := s.Delete(still.ID); !errors.Is(err, ErrHeld) {
		t.Errorf("deleting gives %v", err)
	}
	if err := s.Rename(still.ID, "1"); err != nil { // which loses no marks
		t.Error(err)
	}
	still.Close() // lets go of nothing: it holds nothing
	mark(t, s, still.ID, ErrHeld)
}

// One window marks a still, others read what lies on the disk when they open it. What a
// window did not open to mark, or let go of, it can't save.
func TestOneWindowMarks(t *testing.T) {
	a := storeAt(t)
	b := New(a.folders)
	id := keep(t, a, 1, notesFor(1)...)
	mine := mark(t, a, id, nil)
	list := append(mine.Notes.Notes, notesFor(1)...)
	if err := a.SaveNotes(mine, list); err != nil {
		t.Fatal(err)
	}
	his := mark(t, b, id, ErrHeld)
	if n := len(his.Notes.Notes); n != 2 {
		t.Errorf("the other window shows %d notes, want 2", n)
	}
	barredFrom(t, b, his)
	mark(t, a, id, ErrHeld) // another window of the same program
	if err := a.SaveNotes(mine, list[1:]); err != nil {
		t.Fatal(err)
	}
	mine.Close()
	if err := a.SaveNotes(mine, nil); !errors.Is(err, ErrUnheld) {
		t.Errorf("saving what was let go of gives %v", err)
	}
	if read, err := a.Open(id); err != nil || !errors.Is(a.SaveNotes(read, nil), ErrUnheld) {
		t.Errorf("what was opened to be read can be saved, or %v", err)
	}
	his = mark(t, b, id, nil)
	if got := his.Notes.Notes; len(got) != 1 || got[0].ID != list[1].ID {
		t.Fatalf("let go of, the other window has %v, want %v", got, list[1:])
	}
	if err := b.SaveNotes(his, nil); err != nil {
		t.Fatal(err)
	}
	his.Close()
	if err := a.Delete(id); err != nil {
		t.Fatal(err)
	}
	if _, err := a.Mark(id); !errors.Is(err, ErrGone) {
		t.Errorf("marking a deleted one gives %v", err)
	}
}

// A still that goes though a window marks it, by other hands than ours, is not made anew.
func TestMarkedStillGoes(t *testing.T) {
	s := storeAt(t)
	still := mark(t, s, keep(t, s, 1), nil)
	if err := os.RemoveAll(s.Folder(still.ID)); err != nil {
		still.Close()
		t.Skip(err) // Windows keeps what is open
	}
	if err := s.SaveNotes(still, notesFor(1)); !errors.Is(err, ErrGone) {
		t.Errorf("saving gives %v", err)
	}
}

// Keeping to the limit does not take a still from the window that marks it.
func TestLimitLeavesMarkedStills(t *testing.T) {
	s := storeAt(t)
	id := keep(t, s, 1)
	keep(t, s, 2)
	still := mark(t, s, id, nil)
	c, err := New(s.folders).Over(0)
	if err != nil || len(c.Removals) != 1 {
		t.Fatalf("%+v, %v", c, err)
	}
	if n, err := s.Clear(c); n != 0 || !errors.Is(err, ErrHeld) {
		t.Errorf("removed %d, %v", n, err)
	}
	still.Close()
	if n, err := s.Clear(c); n != 1 || err != nil {
		t.Errorf("let go of: removed %d, %v", n, err)
	}
}

// Where the lock can't be made the still opens, and says why it can't be marked.
func TestLockCannotBeMade(t *testing.T) {
	s := storeAt(t)
	id := keep(t, s, 1, notesFor(1)...)
	if err := os.Mkdir(filepath.Join(s.Folder(id), lockName), 0o700); err != nil {
		t.Fatal(err)
	}
	still, err := s.Mark(id)
	if err != nil || still.Barred == nil || errors.Is(still.Barred, ErrHeld) || len(still.Notes.Notes) != 1 {
		t.Errorf("%+v, %v", still, err)
	}
	if err := s.SaveNotes(still, nil); err == nil {
		t.Error("it is saved")
	}
}

// Several programs mark one still, each as soon as the others let go: what each finds then is
// all that was marked before, and nothing is lost.
func TestMarkedInTurns(t *testing.T) {
	first := storeAt(t)
	id := keep(t, first, 1)
	const programs, times = 4, 8
	troubles := make(chan error, programs)
	for range programs {
		go func() { troubles <- markInTurns(New(first.folders), id, times) }()
	}
	for range programs {
		if err := <-troubles; err != nil {
			t.Fatal(err)
		}
	}
	checkStill(t, first, id, 1, programs*times)
}

func markInTurns(s *Store, id string, times int) error {
	for done := 0; done < times; {
		still, err := s.Mark(id)
		switch {
		case err != nil:
			return err
		case errors.Is(still.Barred, ErrHeld):
			continue
		case still.Barred != nil:
			return still.Barred
		}
		if err := s.SaveNotes(still, slices.Concat(still.Notes.Notes, notesFor(1))); err != nil {
			return err
		}
		still.Close()
		done++
	}
	return nil
}

// A program that marks a still and is killed has let go of it; what it saved is there.
func TestKilledWindowLetsGo(t *testing.T) {
	s := storeAt(t)
	id := keep(t, s, 1)
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), childFolder+"="+s.folders.Data, childMarks+"="+id)
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := child.StdinPipe(); err != nil { // it ends with us, at the latest
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = child.Process.Kill(); _ = child.Wait() })
	if line, err := bufio.NewReader(out).ReadString('\n'); line != "marked <nil>\n" {
		t.Fatalf("%q, %v", line, err)
	}
	his := mark(t, s, id, ErrHeld)
	if n := len(his.Notes.Notes); n != 2 {
		t.Errorf("%d notes while the other program marks, want 2", n)
	}
	barredFrom(t, s, his)
	if err := child.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = child.Wait() // killed
	mine := mark(t, s, id, nil)
	defer mine.Close()
	if err := s.SaveNotes(mine, append(mine.Notes.Notes, notesFor(1)...)); err != nil {
		t.Fatal(err)
	}
	checkStill(t, s, id, 1, 3)
}

// markForEver marks a still in the folder dir until it is killed, or whoever started it ends.
func markForEver(dir, id string) {
	s := New(Folders{Data: dir})
	still, err := s.Mark(id)
	if err == nil {
		err = s.SaveNotes(still, notesFor(2))
	}
	fmt.Println("marked", err)
	_, _ = bufio.NewReader(os.Stdin).ReadByte()
	os.Exit(1)
}

// What a newer program of the same version added to the notes is there after a save.
func TestForeignNotesSurvive(t *testing.T) {
	s := storeAt(t)
	id := keep(t, s, 1, notesFor(1)...)
	path := filepath.Join(s.Folder(id), notesFile)
	if err := os.WriteFile(path, []byte(`{"version": 1, "paper": "grain", "notes": []}`), 0o600); err != nil {
		t.Fatal(err)
	}
	still := mark(t, s, id, nil)
	defer still.Close() // Windows deletes no file that is open
	if err := s.SaveNotes(still, notesFor(2)); err != nil {
		t.Fatal(err)
	}
	if text := fileText(t, path); !strings.Contains(text, `"paper": "grain"`) {
		t.Errorf("%s", text)
	}
	checkStill(t, s, id, 1, 2)
}
