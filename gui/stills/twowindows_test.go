package stills

import (
	"bufio"
	"io"
	"os"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/lawtest"
)

// hasty is the disk without waiting until things last: no power is cut in these tests.
type hasty struct{ realDisk }

func (hasty) Write(path string, write func(io.Writer) error) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	defer f.Close()
	b := bufio.NewWriter(f)
	if err := write(b); err != nil {
		return err
	}
	return b.Flush()
}

func (hasty) Settle(string) error { return nil }

// fataler is a test, whichever kind.
type fataler interface{ Fatal(...any) }

// window is a program that marks a still: a list that grows, and is saved now and then.
type window struct {
	store *Store
	still *Still
	list  *notes.List
	saved []notes.Note // its own, as saved last
}

func openWindow(t fataler, f Folders, id string) *window {
	w := &window{store: New(f)}
	w.store.disk = hasty{}
	still, err := w.store.Open(id)
	if err != nil {
		t.Fatal(err)
	}
	w.still, w.list = still, notes.NewList(still.Notes.Notes)
	return w
}

// save saves the list, and takes over what others did if that is the window's habit.
func (w *window) save(t fataler, takes bool) {
	list := w.list.All()
	if err := w.store.SaveNotes(w.still, list); err != nil {
		t.Fatal(err)
	}
	if takes {
		w.list.Join(list, w.still.Notes.Notes, "")
		w.still.TakeOver()
	}
}

// Two programs have the same still open and go on marking it, each with a list of its own
// that is saved again and again, whether or not they look at what the other did. At any time
// the disk has what each saved last of its own notes, and what was there before; what
// either took away is gone.
func TestTwoWindowsGoOn(t *testing.T) {
	lawtest.SkipRaced(t)
	dir := t.TempDir()
	s := New(Folders{Data: dir})
	rapid.Check(t, func(t *rapid.T) {
		first := notesFor(2)
		id, err := s.Keep(noise(1), metaFor(1), first)
		if err != nil {
			t.Fatal(err)
		}
		takes := rapid.Bool().Draw(t, "takes over")
		both := [2]*window{openWindow(t, s.folders, id), openWindow(t, s.folders, id)}
		owner := map[string]int{}
		for range rapid.IntRange(1, 40).Draw(t, "acts") {
			who := rapid.IntRange(0, 1).Draw(t, "who")
			w := both[who]
			own := slices.DeleteFunc(slices.Clone(w.list.All()), func(n notes.Note) bool {
				by, known := owner[n.ID]
				return !known || by != who
			})
			switch what := rapid.IntRange(0, 9).Draw(t, "what"); {
			case what == 0 && len(own) > 0:
				w.list.Remove(rapid.SampledFrom(own).Draw(t, "removed").ID)
			case what <= 2 && len(own) > 0:
				w.list.Replace(rapid.SampledFrom(own).Draw(t, "moved").Moved(notes.Point{X: 1, Y: 1}), "")
			case what == 3:
				w.list.Undo()
			case what == 4:
				w.list.Redo()
			case what <= 5:
				n := notesFor(1)[0]
				owner[n.ID] = who
				w.list.Add(n)
			default:
				w.saved = slices.DeleteFunc(slices.Clone(w.list.All()), func(n notes.Note) bool {
					by, known := owner[n.ID]
					return !known || by != who
				})
				w.save(t, takes)
				checkBoth(t, s, id, first, both)
			}
		}
	})
}

// checkBoth fails unless the disk has exactly the first notes and what both saved.
func checkBoth(t *rapid.T, s *Store, id string, first []notes.Note, both [2]*window) {
	d, _, err := s.readNotes(id)
	if err != nil {
		t.Fatal(err)
	}
	want := slices.Concat(first, both[0].saved, both[1].saved)
	for _, n := range want {
		if !slices.ContainsFunc(d.Notes, func(m notes.Note) bool { return m.ID == n.ID && notes.Equal(m, n) }) {
			t.Fatalf("%v is lost; on the disk: %v", n, d.Notes)
		}
	}
	if len(d.Notes) != len(want) {
		t.Fatalf("%d notes on the disk, want %d: %v", len(d.Notes), len(want), d.Notes)
	}
}

// What a window took over it can take away, and change.
func TestTakenOverNotesAreOnesOwn(t *testing.T) {
	s := storeAt(t)
	id, err := s.Keep(noise(1), metaFor(1), notesFor(1))
	if err != nil {
		t.Fatal(err)
	}
	a, b := openWindow(t, s.folders, id), openWindow(t, s.folders, id)
	theirs := notesFor(2)
	b.list.Add(theirs...)
	b.save(t, true)
	a.list.Add(notesFor(1)...)
	a.save(t, true)
	if len(a.list.All()) != 4 {
		t.Fatalf("taken over: %v", a.list.All())
	}
	a.list.Remove(theirs[0].ID)
	moved := theirs[1].Moved(notes.Point{X: 5})
	a.list.Replace(moved, "")
	a.save(t, true)
	if d, _, err := s.readNotes(id); err != nil || len(d.Notes) != 3 ||
		!slices.ContainsFunc(d.Notes, func(n notes.Note) bool { return notes.Equal(n, moved) }) {
		t.Fatalf("%v, %v", d.Notes, err)
	}
	b.list.Add(notesFor(1)...)
	b.save(t, true)
	if b.list.Find(theirs[0].ID) >= 0 || !notes.Equal(b.list.All()[b.list.Find(theirs[1].ID)], moved) {
		t.Fatalf("the other window has %v", b.list.All())
	}
}
